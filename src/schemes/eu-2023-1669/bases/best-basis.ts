import type { MissingFact } from '#quantity/explained';
import type { DevicePart } from '#record/device/device';
import type { RouteSource } from '#routes/problem/from-record';
import type { BestFound } from '#routes/search/best-found';
import { type Unreachable, unreachableWords } from '#routes/search/unreachable';
import { itemsOfRoute } from '#routes/sequence/bench-sequence';
import { evidencedItems } from '#routes/sequence/item-evidence';
import type { Finding, PriorityRole } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import {
  bestShown,
  bestSure,
  doubtfulOnEvery,
  fewestPossible,
  highestPossible,
  type RouteProblems,
} from './best-search.ts';
import { type ClassEnds, classBounds, classesAreKnown } from './class-bounds.ts';
import { fastenerRange } from './class-ranges.ts';
import { commonEnds, commonStretch } from './common-order.ts';
import { type JudgedSequence, type Judging, judgeSequence } from './judge-sequence.ts';
import { type IndexSource, pairingFinding } from './pairing.ts';
import { judgedFinding, type PartBasis, widened } from './part-basis.ts';
import { anyRecordName } from './record-names.ts';
import { routeScope } from './route-scope.ts';
import { withinSums } from './sum-bounds.ts';
import { missingHolders, withUnknownHolders } from './unknown-holding.ts';

interface Context {
  readonly source: IndexSource;
  readonly readings: Interpretations;
}

/**
 * What does the best-found basis say of one part? Steps of the route with the fewest; main value by what trials or sight show,
 * its width to what nothing excludes: any completion of the record has a route within both ends (docs/method/width.md).
 */
export const bestBasis = (part: DevicePart, problems: RouteProblems, context: Context): PartBasis => {
  const judging: Judging = { ...context, part: part.id };
  const possible = fewestPossible(problems, [`free/${part.id}`], judging);
  if (possible.kind === 'unreachable') return unreachablePart(part, whyWords(possible, context.source), context);
  const shown = bestShown(problems, judging);
  if (shown.kind === 'unreachable')
    return notShown(part, { fewest: possible.bound, why: whyWords(shown, context.source) }, { problems, judging });
  const common = commonStretch(problems, judging);
  const judged = judgeSequence(evidencedItems(itemsOfRoute(shown.actions), judging.source), { ...judging, ...common });
  const unheld = missingHolders(part.id, judging.source);
  const main = withUnheld(judgedFinding(part, judged, context), unheld);
  const sure = bestSure(problems, judging);
  const steps = {
    worst: sure.kind === 'found' && !unheld ? sure.steps : undefined,
    best: Math.min(possible.bound, shown.steps),
  };
  const doubt = withDoubt(
    endsOf({ shown, sure, judged, fewest: steps.best }, { problems, judging }),
    problems,
    judging,
  );
  const ends = unheld ? { ...classesUnheld(doubt, unheld), exact: false } : doubt;
  const missing = [
    ...(unheld ? [unheld] : []),
    ...(steps.best === (unheld ? judged.steps : steps.worst) && doubt.exact ? [] : openTrials(part)),
  ];
  return {
    part: part.id,
    role: part.role as PriorityRole,
    main,
    wide: widened(main, { steps, ...ends, missing }),
    judged,
    shownSteps: shown.steps,
    fewestSteps: steps.best,
    proved: shown.proved,
  };
};

const classesUnheld = ({ fastener, tool }: ClassEnds, unheld: MissingFact): ClassEnds => ({
  fastener: withUnknownHolders(fastener, unheld),
  tool: withUnknownHolders(tool, unheld),
});

/** A finding of a part of which nobody recorded what holds it: steps and classes are at best those of the route that is shown. */
const withUnheld = (main: PartBasis['main'], unheld: MissingFact | undefined): PartBasis['main'] => {
  if (!unheld) return main;
  const open = <T>(finding: Finding<T>): Finding<T> =>
    finding.state === 'known' ? { state: 'open', missing: [unheld], best: finding.value } : finding;
  const { explained: _trees, ...plain } = main;
  return { ...plain, steps: open(main.steps), fastener: open(main.fastener), tool: open(main.tool) };
};

/** Where a look may show that no route leaves the product whole, the fastener may be below the scale, in the stretch or not. */
const withDoubt = (ends: ExactEnds, problems: RouteProblems, judging: Judging): ExactEnds => {
  const doubtful = doubtfulOnEvery(problems, judging.part);
  if (doubtful.length === 0) return ends;
  const looks = doubtful.flatMap(
    ({ subject }) =>
      fastenerRange(judging.source, { part: judging.part, fastener: subject, leaves: undefined }).missing,
  );
  const { fastener } = ends;
  return {
    ...ends,
    fastener: { ...fastener, worst: 'below-scale', missing: [...fastener.missing, ...looks] },
    exact: false,
  };
};

type ExactEnds = ClassEnds & { readonly exact: boolean };

/** Between which classes is the part, whatever completes the record? `exact` where nothing but the shown route can be best. */
const endsOf = (
  route: {
    readonly shown: BestFound;
    readonly sure: BestFound | Unreachable;
    readonly judged: JudgedSequence;
    readonly fewest: number;
  },
  at: { readonly problems: RouteProblems; readonly judging: Judging },
): ExactEnds => {
  const { shown, judged, fewest } = route;
  const { problems, judging } = at;
  const most = route.sure.kind === 'found' ? route.sure : undefined;
  const scope = routeScope(problems, judging, most?.steps);
  const priorityParts = problems.optimistic.priorityParts;
  const sure = scope.settled.ways && shown.proved;
  if (judging.readings['previous-priority-part'] === 'common-order') return commonEnds(judged, scope, at);
  if (sure && classesAreKnown(scope, judging)) return { fastener: judged.fastener, tool: judged.tool, exact: true };
  // With conditions open an action may turn out needless, and the routes without it may have other sums.
  if (!scope.settled.conditions || !most?.proved || fewest < most.steps)
    return { ...classBounds(scope, judging, priorityParts), exact: false };
  const sums = {
    lowest: most.points.fastener + most.points.tool,
    highest: sure ? highestShown(problems, judging) : highestPossible(problems, judging),
  };
  // The sums alone often leave one class each; only then is it not asked what else a route of as many steps may hold.
  const bySums = withinSums(ANY_CLASS, sums);
  if (isOne(bySums)) return { ...bySums, exact: sure };
  return { ...withinSums(classBounds(scope, judging, priorityParts), sums), exact: sure };
};

const any = { missing: [], evidence: [], why: 'over every route of as many steps' };
const ANY_CLASS: ClassEnds = {
  fastener: { ...any, worst: 'below-scale', best: 'reusable' },
  tool: { ...any, worst: 'below-scale', best: 'none' },
};

const isOne = ({ fastener, tool }: ClassEnds): boolean => fastener.worst === fastener.best && tool.worst === tool.best;

const highestShown = (problems: RouteProblems, judging: Judging): number => {
  const found = bestShown(problems, judging, 'best');
  return found.kind === 'found' && found.proved ? found.points.fastener + found.points.tool : 10;
};

/** Why is there no route, with the names of the record? */
const whyWords = (found: Unreachable, { assessment }: RouteSource): string =>
  unreachableWords(found, (id) => anyRecordName(assessment, id));

const openTrials = (part: DevicePart): readonly MissingFact[] => [
  {
    address: `parts/${part.id}/trials`,
    what: `how few things must be off before ${part.name} comes`,
    remedy: 'try it with less off, or say by sight what had to be off',
  },
];

const notShown = (
  part: DevicePart,
  at: { readonly fewest: number; readonly why: string },
  { problems, judging }: { readonly problems: RouteProblems; readonly judging: Judging },
): PartBasis => {
  const missing: MissingFact[] = [
    {
      address: `parts/${part.id}`,
      what: `no route to ${part.name} is shown: ${at.why}`,
      remedy: 'make the trial, or say by sight what must be off',
    },
  ];
  const pairing = pairingFinding(judging.source, part.id, judging.readings);
  const scope = routeScope(problems, judging, undefined);
  const common = judging.readings['previous-priority-part'] === 'common-order';
  const { fastener, tool } = common
    ? commonEnds(undefined, scope, { problems, judging })
    : classBounds(scope, judging, problems.optimistic.priorityParts);
  const open: PartBasis['main'] = {
    role: part.role as PriorityRole,
    part: part.id,
    name: part.name,
    pairingSteps: pairing,
    steps: { state: 'open', missing, best: at.fewest + (pairing.state === 'known' ? pairing.value : 0) },
    // Without a shown route the record need not hold every fastener on the way: the worst end is the whole scale's.
    fastener: { state: 'open', missing, best: fastener.best },
    tool: { state: 'open', missing, best: tool.best },
  };
  return { part: part.id, role: open.role, main: open, wide: open, fewestSteps: at.fewest, proved: true };
};

const unreachablePart = (part: DevicePart, why: string, { source, readings }: Context): PartBasis => {
  const below = {
    state: 'not-scorable' as const,
    why: `${part.name} cannot be freed without damage by anything recorded: ${why}`,
    evidence: [],
  };
  const finding: PartBasis['main'] = {
    role: part.role as PriorityRole,
    part: part.id,
    name: part.name,
    pairingSteps: pairingFinding(source, part.id, readings),
    steps: below,
    fastener: below,
    tool: below,
  };
  return { part: part.id, role: finding.role, main: finding, wide: finding, proved: true };
};
