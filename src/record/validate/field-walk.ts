import type { PathSegment } from '../problem.ts';

/** What is done with one value of the record; `path` is shared and must be copied to be kept. */
export type FieldCheck = (value: unknown, path: readonly PathSegment[]) => void;

/** A check for every value at a pattern of the id path; `*` stands for any id or index. */
export interface FieldRule {
  readonly pattern: string;
  readonly check: FieldCheck;
}

interface PatternNode {
  readonly named: [string, PatternNode][];
  any: PatternNode | undefined;
  readonly checks: FieldCheck[];
}

const emptyNode = (): PatternNode => ({ named: [], any: undefined, checks: [] });

const patternTree = (rules: readonly FieldRule[]): PatternNode => {
  const root = emptyNode();
  for (const { pattern, check } of rules) {
    let node = root;
    for (const segment of pattern.split('/')) node = nextNode(node, segment);
    node.checks.push(check);
  }
  return root;
};

const nextNode = (node: PatternNode, segment: string): PatternNode => {
  if (segment === '*') {
    node.any ??= emptyNode();
    return node.any;
  }
  const known = node.named.find(([name]) => name === segment);
  if (known) return known[1];
  const added = emptyNode();
  node.named.push([segment, added]);
  return added;
};

/** Shows every rule the values it is for, in one pass over the record. Values of another shape than expected are passed over. */
export const walkFields = (data: unknown, rules: readonly FieldRule[]): void => {
  visit(data, patternTree(rules), []);
};

const visit = (value: unknown, node: PatternNode, path: PathSegment[]): void => {
  if (value === undefined) return;
  for (const check of node.checks) check(value, path);
  if (typeof value !== 'object' || value === null) return;
  if (Array.isArray(value)) {
    if (node.any) for (const [index, item] of value.entries()) enter(item, node.any, { path, segment: index });
    return;
  }
  const map = value as Record<string, unknown>;
  for (const [name, below] of node.named)
    if (Object.hasOwn(map, name)) enter(map[name], below, { path, segment: name });
  if (node.any) for (const key of Object.keys(map)) enter(map[key], node.any, { path, segment: key });
};

const enter = (
  value: unknown,
  node: PatternNode,
  { path, segment }: { readonly path: PathSegment[]; readonly segment: PathSegment },
): void => {
  path.push(segment);
  visit(value, node, path);
  path.pop();
};
