import { maskSource } from './mask-source.ts';

const declaration =
  /^export\s+(?:declare\s+|abstract\s+|async\s+)*(?:function\*?|const|let|class|interface|type)\s+(?!\{)([\w$]+)/;

/** Which exported declarations of a source text have no docstring directly above? Overloads after the first are free. */
export function undocumentedExports(source: string): readonly { readonly line: number; readonly name: string }[] {
  const lines = source.split('\n');
  const codeLines = maskSource(source, { strings: true }).split('\n');
  const documented = new Set<string>();
  const missing: { line: number; name: string }[] = [];
  for (const [index, code] of codeLines.entries()) {
    const name = declaration.exec(code)?.[1];
    if (name === undefined) continue;
    const hasDocstring = lines[index - 1]?.trimEnd().endsWith('*/') === true;
    if (hasDocstring) documented.add(name);
    else if (!documented.has(name)) missing.push({ line: index + 1, name });
  }
  return missing;
}
