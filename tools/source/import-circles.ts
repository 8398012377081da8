import { posix } from 'node:path';
import { folderOf, type SourceTree, targetOf } from './import-check.ts';
import { importsOf } from './source-imports.ts';

/** Who imports whom, by name of a file or a folder. */
export type ImportGraph = ReadonlyMap<string, ReadonlySet<string>>;

/** Do imports that the compiler erases count? */
export interface GraphOptions {
  readonly types: boolean;
}

/** Which file under `src/` imports which? Tests are left out; `import type` counts if asked. */
export function fileGraph(tree: SourceTree, { types }: GraphOptions): ImportGraph {
  const graph = new Map<string, Set<string>>();
  for (const [file, source] of tree) {
    if (folderOf(file) === undefined || file.endsWith('.test.ts')) continue;
    const counted = importsOf(source).filter(({ typeOnly }) => types || !typeOnly);
    const targets = counted.map((imported) => targetOf(file, imported.specifier));
    graph.set(file, new Set(targets.filter((target) => target !== undefined && tree.has(target)) as string[]));
  }
  return graph;
}

/**
 * Which folder imports which? Each folder stands for the files directly in it. A folder and one inside it are one piece to
 * the outside, so imports between them do not count; those between neighbours do.
 */
export function folderGraph(files: ImportGraph): ImportGraph {
  const graph = new Map<string, Set<string>>();
  for (const [file, targets] of files) {
    const folder = posix.dirname(file);
    const reached = graph.get(folder) ?? new Set<string>();
    for (const target of targets) {
      const other = posix.dirname(target);
      if (!`${other}/`.startsWith(`${folder}/`) && !`${folder}/`.startsWith(`${other}/`)) reached.add(other);
    }
    graph.set(folder, reached);
  }
  return graph;
}

/** Is there a way round? Every circle found by depth-first search, each as the names along it, first name repeated. */
export function circlesIn(graph: ImportGraph): readonly (readonly string[])[] {
  const done = new Set<string>();
  const path: string[] = [];
  const circles: string[][] = [];
  const visit = (name: string): void => {
    const seenAt = path.indexOf(name);
    if (seenAt >= 0) circles.push([...path.slice(seenAt), name]);
    if (seenAt >= 0 || done.has(name)) return;
    path.push(name);
    for (const target of [...(graph.get(name) ?? [])].sort()) visit(target);
    path.pop();
    done.add(name);
  };
  for (const name of [...graph.keys()].sort()) visit(name);
  return circles;
}
