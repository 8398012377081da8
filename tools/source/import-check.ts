import { posix } from 'node:path';
import { arrows, packagesOfPureFolders, pureFolders, typeOnlyArrows } from './arrows.ts';
import { importsOf, type SourceImport } from './source-imports.ts';

/** Source texts by path from the package's root, with forward slashes. */
export type SourceTree = ReadonlyMap<string, string>;

/** One import that the architecture forbids, worded for a person. */
export interface ImportProblem {
  readonly file: string;
  readonly line: number;
  readonly specifier: string;
  readonly why: string;
}

/** Which folder of `src/` does a file belong to? `undefined` outside `src/`. */
export function folderOf(file: string): string | undefined {
  const [top, folder, rest] = file.split('/');
  return top === 'src' && rest !== undefined ? folder : undefined;
}

/**
 * Which file does an import mean? Subpaths (`#routes/x`) map to `src/routes/x.ts`, relative ones resolve beside the
 * importing file; packages and Node's own modules are `undefined`.
 */
export function targetOf(file: string, specifier: string): string | undefined {
  if (specifier.startsWith('#')) return `src/${specifier.slice(1)}.ts`;
  if (specifier.startsWith('.')) return posix.join(posix.dirname(file), specifier);
  return undefined;
}

/** Which imports break the rules? Only files under `src/` that are no tests are looked at. */
export function checkImports(tree: SourceTree): readonly ImportProblem[] {
  const problems: ImportProblem[] = [];
  for (const [file, source] of tree) {
    if (folderOf(file) === undefined || file.endsWith('.test.ts')) continue;
    for (const imported of importsOf(source)) {
      const why = whyForbidden(file, imported, tree);
      if (why !== undefined) problems.push({ file, line: imported.line, specifier: imported.specifier, why });
    }
  }
  return problems;
}

function whyForbidden(file: string, imported: SourceImport, tree: SourceTree): string | undefined {
  const folder = folderOf(file) ?? '';
  const target = targetOf(file, imported.specifier);
  if (target === undefined) return whyPackageForbidden(folder, imported.specifier);
  const targetFolder = folderOf(target);
  if (targetFolder === undefined) return whyOutsideForbidden(target);
  if (!tree.has(target)) return `there is no ${target}`;
  if (arrows[folder] === undefined) return `src/${folder} has no place in the table of arrows`;
  if (targetFolder === folder) {
    const beside = posix.dirname(target) === posix.dirname(file);
    return imported.specifier.startsWith('#') && beside
      ? 'beside a file imports are relative, with the .ts ending'
      : undefined;
  }
  if (imported.specifier.startsWith('.')) return `across folders imports use the subpath #${targetFolder}/…`;
  return mayImport(folder, targetFolder, imported.typeOnly) ? undefined : `${folder} may not import ${targetFolder}`;
}

function mayImport(folder: string, target: string, typeOnly: boolean): boolean {
  if (arrows[folder]?.includes(target) === true) return true;
  return typeOnly && typeOnlyArrows[folder]?.includes(target) === true;
}

function whyPackageForbidden(folder: string, specifier: string): string | undefined {
  if (!pureFolders.includes(folder)) return undefined;
  if (specifier.startsWith('node:')) return `${folder} is pure: files, clocks and the like are arguments`;
  const allowed = packagesOfPureFolders[folder] ?? [];
  const name = specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');
  return allowed.includes(name) ? undefined : `${folder} may not import the package ${specifier}`;
}

function whyOutsideForbidden(target: string): string | undefined {
  const isShipped = target.startsWith('references/') || target.startsWith('rubrics/');
  return isShipped || target === 'package.json' ? undefined : `${target} lies outside src/`;
}
