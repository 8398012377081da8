import { metricKey } from './metric-kinds.ts';
import type { Cap, Criterion, Role, Rubric } from './rubric-schema.ts';

/** Of which roles must the product have a part, so that a criterion or cap applies? That of its metric, and those it names. */
export const rolesOf = (item: Criterion | Cap): readonly Role[] => {
  const { role } = metricOf(item);
  return [...new Set([...(role === undefined ? [] : [role]), ...(item.applies?.has ?? [])])].sort();
};

/** Which metric does a criterion or cap look at? */
export const metricOf = (item: Criterion | Cap) => ('when' in item ? item.when.metric : item.metric);

/** One criterion or cap, as far as it ties roles and metrics together. */
export interface Tie {
  readonly metric: string;
  readonly roles: readonly string[];
}

/** Things that hang together: what is chosen for one bears on the others of its group and on nothing else. */
export interface TiedGroup {
  readonly metrics: readonly string[];
  readonly roles: readonly string[];
}

/** Into which groups do roles and metrics fall that ties join? Groups and their members in alphabetical order. */
export const tiedGroups = (ties: readonly Tie[]): readonly TiedGroup[] => {
  const parent = new Map<string, string>();
  const top = (node: string): string => {
    let here = node;
    for (let up = parent.get(here); up !== undefined && up !== here; up = parent.get(here)) here = up;
    return here;
  };
  for (const { metric, roles } of ties)
    for (const node of [`m ${metric}`, ...roles.map((role) => `r ${role}`)]) {
      if (!parent.has(node)) parent.set(node, node);
      parent.set(top(node), top(`m ${metric}`));
    }
  const groups = new Map<string, string[]>();
  for (const node of [...parent.keys()].sort()) groups.set(top(node), [...(groups.get(top(node)) ?? []), node]);
  const named = (nodes: readonly string[], kind: string): readonly string[] =>
    nodes.filter((node) => node.startsWith(kind)).map((node) => node.slice(2));
  return [...groups.values()].map((nodes) => ({ metrics: named(nodes, 'm '), roles: named(nodes, 'r ') }));
};

/** Which roles of a rubric hang together, were it open of all whether the product has them? */
export const linkedRoles = (rubric: Rubric): readonly ReadonlySet<string>[] =>
  tiedGroups(
    [...Object.values(rubric.criteria), ...Object.values(rubric.caps ?? {})].map((item) => ({
      metric: metricKey(metricOf(item)),
      roles: rolesOf(item),
    })),
  ).map(({ roles }) => new Set(roles));
