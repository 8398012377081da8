import type { RouteAction } from '#routes/problem/route-problem';
import type { SequenceItem } from '#routes/sequence/bench-sequence';
import { bestShown, type RouteProblems } from './best-search.ts';
import { type ClassEnds, classBounds, classesAreKnown } from './class-bounds.ts';
import type { JudgedSequence, Judging } from './judge-sequence.ts';
import { type RouteScope, routeScope } from './route-scope.ts';

/** What an action brings about, whichever way it is done: a second way of one fastener brings nothing new. */
const effectOf = (action: RouteAction): string => `${action.kind}/${action.subject}`;

/**
 * Which items of a best-found route are in the stretch, where all parts are taken out in one common order (interpretation
 * `previous-priority-part`)? Those that the part's own route needs beyond the routes of all priority parts that lie less deep,
 * by strictly fewer steps, so that neither names nor the order of equals decide. Empty where the own sequence decides.
 */
export const commonStretch = (problems: RouteProblems, judging: Judging): Pick<Judging, 'inStretch'> => {
  if (judging.readings['previous-priority-part'] !== 'common-order') return {};
  const own = bestShown(problems, judging);
  if (own.kind !== 'found') return {};
  const earlier = new Set<string>();
  for (const part of problems.pessimistic.priorityParts) {
    const other = part === judging.part ? undefined : bestShown(problems, { ...judging, part });
    if (other?.kind !== 'found' || other.steps >= own.steps) continue;
    for (const action of other.actions) earlier.add(effectOf(action));
  }
  const beyond = new Set(
    own.actions.filter((action, index) => index === own.actions.length - 1 || !earlier.has(effectOf(action))),
  );
  const ids = new Set([...beyond].map((action) => action.id));
  return { inStretch: (item: SequenceItem) => ids.has(item.address) };
};

/**
 * Between which classes is a part under the common order? As judged where no open trial or class can change the route of any
 * priority part; else from the worst over everything that could be on the part's own route to the best class: soundly wide.
 */
export const commonEnds = (
  judged: JudgedSequence | undefined,
  scope: RouteScope,
  at: { readonly problems: RouteProblems; readonly judging: Judging },
): ClassEnds & { readonly exact: boolean } => {
  const { problems, judging } = at;
  const all = problems.optimistic.priorityParts.map((part) => {
    const other = { ...judging, part };
    return { other, scope: routeScope(problems, other, undefined) };
  });
  const sure =
    judged !== undefined &&
    all.every(
      ({ other, scope: its }) =>
        its.certain.size === 0 || (its.settled.ways && isProved(problems, other) && classesAreKnown(its, other)),
    );
  if (sure) return { fastener: judged.fastener, tool: judged.tool, exact: true };
  const { fastener, tool } = classBounds(scope, judging, []);
  return { fastener: { ...fastener, best: 'reusable' }, tool: { ...tool, best: 'none' }, exact: false };
};

const isProved = (problems: RouteProblems, judging: Judging): boolean => {
  const found = bestShown(problems, judging);
  return found.kind === 'found' && found.proved;
};
