import { maskSource } from './mask-source.ts';

/** One import or re-export of a source file. */
export interface SourceImport {
  readonly specifier: string;
  /** Erased by the compiler: `import type` and `export type … from`. */
  readonly typeOnly: boolean;
  /** Line of the statement, from 1. */
  readonly line: number;
}

const statement = /^(?:import|export)\s+(type\s+)?(?:[\w*{}\s,$]+?\s+from\s+)?['"]([^'"\n]+)['"]/gm;
const call = /\bimport\(\s*['"]([^'"\n]+)['"]\s*\)/g;

/** What does a source file import? Static imports, re-exports and `import()` of a literal, in the order of the text. */
export function importsOf(source: string): readonly SourceImport[] {
  const code = maskSource(source, { strings: false });
  const lineAt = (index: number) => code.slice(0, index).split('\n').length;
  const found: SourceImport[] = [];
  for (const match of code.matchAll(statement)) {
    found.push({ specifier: match[2] ?? '', typeOnly: match[1] !== undefined, line: lineAt(match.index) });
  }
  for (const match of code.matchAll(call)) {
    found.push({ specifier: match[1] ?? '', typeOnly: false, line: lineAt(match.index) });
  }
  return found.sort((a, b) => a.line - b.line);
}
