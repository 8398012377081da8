import type { MissingFact } from '#quantity/explained';
import type { DevicePart } from '#record/device/device';
import { relevantActions } from '#routes/expected/relevant-actions';
import type { RouteSource } from '#routes/problem/from-record';
import type { RouteAction, RouteProblem } from '#routes/problem/route-problem';
import { type BestFound, bestFound } from '#routes/search/best-found';
import type { Unreachable } from '#routes/search/unreachable';
import { itemsOfRoute } from '#routes/sequence/bench-sequence';
import type { RoutePoints } from '#routes/steps/stretch';
import { FASTENER_POINTS, TOOL_POINTS } from '../bands.ts';
import type { FastenerClass, PriorityRole, ToolClass } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { countingRulesFor } from '../readings.ts';
import { FASTENER_ORDER, TOOL_ORDER, worstOf } from './basis-rules.ts';
import { type ClassRange, fastenerRange, toolRange } from './class-ranges.ts';
import { type JudgedSequence, type Judging, judgeSequence } from './judge-sequence.ts';
import { pairingFinding } from './pairing.ts';
import { judgedFinding, type PartBasis, type StepEnds, widened } from './part-basis.ts';

/** The problems of one record that best-found routes are sought in. */
export interface RouteProblems {
  readonly pessimistic: RouteProblem;
  readonly optimistic: RouteProblem;
}

/** Points below the scale: so low that any route within it is preferred among routes of as many steps. */
const BELOW = -1000;

const fastenerPoints = (name: FastenerClass): number => (name === 'below-scale' ? BELOW : FASTENER_POINTS[name]);
const toolPoints = (name: ToolClass): number => (name === 'below-scale' ? BELOW : TOOL_POINTS[name]);

/** Which points does the scheme give for one part, every open class at its worst or at its best? */
export const pointsFor = (judging: Judging, end: 'worst' | 'best'): RoutePoints => {
  const { source, part, readings } = judging;
  const byTool = new Map<string, number>();
  const byAction = new Map<string, number>();
  const kept = (map: Map<string, number>, key: string, make: () => number): number => {
    const value = map.get(key) ?? make();
    map.set(key, value);
    return value;
  };
  return {
    fastener: (action) =>
      action.kind !== 'release'
        ? 5
        : kept(byAction, action.id, () =>
            fastenerPoints(fastenerRange(source, { part, fastener: action.subject, leaves: action.leaves })[end]),
          ),
    tool: (tool) => kept(byTool, tool, () => toolPoints(toolRange(source, { part, tool }, readings)[end])),
  };
};

/** What is searched for one part under one set of readings? */
export interface BestSearch {
  readonly shown: BestFound | Unreachable;
  readonly possible: BestFound | Unreachable;
}

/** Best found for one part, with the named tools only where given: by what is shown, and by what nothing excludes. */
export const searchBest = (problems: RouteProblems, judging: Judging, tools?: ReadonlySet<string>): BestSearch => {
  const rules = countingRulesFor(judging.readings);
  const target = `free/${judging.part}` as const;
  const only = tools ? { tools } : {};
  const shown = bestFound(problems.pessimistic, target, { rules, points: pointsFor(judging, 'worst'), ...only });
  const possible = bestFound(problems.optimistic, target, { rules, points: pointsFor(judging, 'best'), ...only });
  return { shown, possible };
};

/**
 * What does the best-found basis say of one part? Steps of the route with the fewest; main value by what trials or sight show,
 * its width to what nothing excludes. Where both ends have as many steps, every completion keeps that count and has at least
 * the points of the shown route and at most those of the possible one; where they differ, the classes are bounded over every
 * action that could matter (docs/method/width.md).
 */
export const bestBasis = (
  part: DevicePart,
  problems: RouteProblems,
  context: { readonly source: RouteSource; readonly readings: Interpretations },
): PartBasis => {
  const judging: Judging = { ...context, part: part.id };
  const { shown, possible } = searchBest(problems, judging);
  const role = part.role as PriorityRole;
  if (possible.kind === 'unreachable') return unreachablePart(part, possible.why, context);
  const judgedPossible = judgeSequence(itemsOfRoute(possible.actions), judging);
  if (shown.kind === 'unreachable') return notShown(part, { possible, why: shown.why }, { problems, judging });
  const judged = judgeSequence(itemsOfRoute(shown.actions), judging);
  const main = judgedFinding(part, judged, context);
  const steps: StepEnds = { worst: shown.steps, best: Math.min(possible.bound, shown.steps) };
  const same = steps.best === steps.worst;
  const ranges = same ? betweenRoutes(judged, judgedPossible, part, context.source) : classBounds(problems, judging);
  const wide = widened(main, { steps, ...ranges, missing: same ? [] : openTrials(part) });
  return {
    part: part.id,
    role,
    main,
    wide,
    judged,
    shownSteps: shown.steps,
    fewestSteps: possible.bound,
    proved: shown.proved,
  };
};

/** With as many steps at both ends: from the shown route's worst to the possible one's best; where a role has several instances, each end by itself. */
const betweenRoutes = (
  shown: JudgedSequence,
  possible: JudgedSequence,
  part: DevicePart,
  source: RouteSource,
): { fastener: ClassRange<FastenerClass>; tool: ClassRange<ToolClass> } => {
  const several = [...source.device.parts.values()].filter((other) => other.role === part.role).length > 1;
  const fastener = between(shown.fastener, possible.fastener, FASTENER_ORDER);
  const tool = between(shown.tool, possible.tool, TOOL_ORDER);
  return several
    ? {
        fastener: spread(fastener, shown.fastener, possible.fastener, FASTENER_ORDER),
        tool: spread(tool, shown.tool, possible.tool, TOOL_ORDER),
      }
    : { fastener, tool };
};

const between = <C extends string>(low: ClassRange<C>, high: ClassRange<C>, order: readonly C[]): ClassRange<C> => {
  const worst = low.worst;
  const best = order.indexOf(high.best) >= order.indexOf(worst) ? high.best : worst;
  return { worst, best, missing: [...low.missing, ...high.missing], evidence: low.evidence, why: low.why };
};

const spread = <C extends string>(
  range: ClassRange<C>,
  a: ClassRange<C>,
  b: ClassRange<C>,
  order: readonly C[],
): ClassRange<C> => {
  const worst = worstOf([a.worst, b.worst, range.worst], order);
  return { ...range, worst };
};

/** Sound ends of the classes over everything that could be on any route to the part. */
const classBounds = (
  problems: RouteProblems,
  { source, part, readings }: Judging,
): { fastener: ClassRange<FastenerClass>; tool: ClassRange<ToolClass> } => {
  const target = `free/${part}` as const;
  const actions: readonly RouteAction[] = [problems.pessimistic, problems.optimistic].flatMap((problem) => [
    ...relevantActions(problem.actions, target).actions,
  ]);
  const fasteners = actions
    .filter((action) => action.kind === 'release')
    .map((action) => fastenerRange(source, { part, fastener: action.subject, leaves: action.leaves }));
  const tools = [...new Set(actions.flatMap((action) => action.atoms.flatMap((atom) => atom.tools)))].map((tool) =>
    toolRange(source, { part, tool }, readings),
  );
  const usable = fasteners.filter((range) => range.worst !== 'below-scale');
  return {
    fastener: {
      worst: worstOf(
        usable.map((range) => range.worst),
        FASTENER_ORDER,
      ),
      best: 'reusable',
      missing: usable.flatMap((range) => range.missing),
      evidence: [],
      why: 'over every action that could matter',
    },
    tool: {
      worst: worstOf(
        tools.map((range) => range.worst),
        TOOL_ORDER,
      ),
      best: 'none',
      missing: tools.flatMap((range) => range.missing),
      evidence: [],
      why: 'over every action that could matter',
    },
  };
};

const openTrials = (part: DevicePart): readonly MissingFact[] => [
  {
    address: `parts/${part.id}/trials`,
    what: `how few things must be off before ${part.name} comes`,
    remedy: 'try it with less off, or say by sight what had to be off',
  },
];

const notShown = (
  part: DevicePart,
  at: { readonly possible: BestFound; readonly why: string },
  { problems, judging }: { readonly problems: RouteProblems; readonly judging: Judging },
): PartBasis => {
  const missing: MissingFact[] = [
    {
      address: `parts/${part.id}`,
      what: `no route to ${part.name} is shown: ${at.why}`,
      remedy: 'make the trial, or say by sight what must be off',
    },
  ];
  const pairing = pairingFinding(judging.source.assessment, part.id, judging.readings);
  const ranges = classBounds(problems, judging);
  const open: PartBasis['main'] = {
    role: part.role as PriorityRole,
    part: part.id,
    name: part.name,
    pairingSteps: pairing,
    steps: stepsWithOpen(missing, at.possible.bound),
    fastener: { state: 'open', missing, worst: ranges.fastener.worst, best: ranges.fastener.best },
    tool: { state: 'open', missing, worst: ranges.tool.worst, best: ranges.tool.best },
  };
  return { part: part.id, role: open.role, main: open, wide: open, fewestSteps: at.possible.bound, proved: true };
};

const stepsWithOpen = (missing: readonly MissingFact[], best: number): PartBasis['main']['steps'] => ({
  state: 'open',
  missing,
  worst: 1_000_000,
  best,
});

const unreachablePart = (
  part: DevicePart,
  why: string,
  { source, readings }: { readonly source: RouteSource; readonly readings: Interpretations },
): PartBasis => {
  const below = {
    state: 'not-scorable' as const,
    why: `${part.name} cannot be freed without damage by anything recorded: ${why}`,
    evidence: [],
  };
  const finding: PartBasis['main'] = {
    role: part.role as PriorityRole,
    part: part.id,
    name: part.name,
    pairingSteps: pairingFinding(source.assessment, part.id, readings),
    steps: below,
    fastener: below,
    tool: below,
  };
  return { part: part.id, role: finding.role, main: finding, wide: finding, proved: true };
};
