import type { RouteAction } from '#routes/problem/route-problem';
import { isUncounted } from '#routes/steps/step-counter';
import type { FastenerClass, ToolClass } from '../input.ts';
import { countingRulesFor } from '../readings.ts';
import { FASTENER_ORDER, TOOL_ORDER, worstOf } from './basis-rules.ts';
import { type ClassRange, fastenerRange, toolRange } from './class-ranges.ts';
import type { Judging } from './judge-sequence.ts';
import { afterAllResets, mainFact, type RouteScope, surelyBeforeStretch } from './route-scope.ts';

/** Between which classes do fastener and tool of a part's stretch lie? */
export interface ClassEnds {
  readonly fastener: ClassRange<FastenerClass>;
  readonly tool: ClassRange<ToolClass>;
}

/** Which class has the fastener of one release, for this part? Not on the list of fasteners at all: the best class. */
const fastenerOf = (action: RouteAction, { source, part }: Judging): ClassRange<FastenerClass> =>
  fastenerRange(source, { part, fastener: action.subject, leaves: action.leaves });

const noTool: ClassRange<ToolClass> = { worst: 'none', best: 'none', missing: [], evidence: [], why: 'bare hands' };

/** A way that nobody recorded may need any tool. */
const anyTool: ClassRange<ToolClass> = { ...noTool, worst: 'below-scale', why: 'no way is recorded' };

/** Which class has the worst tool of one action, for this part? */
const toolOf = (action: RouteAction, { source, part, readings }: Judging): ClassRange<ToolClass> => {
  if (action.kind === 'release' && action.way === undefined) return anyTool;
  const rules = countingRulesFor(readings);
  const tools = action.atoms.filter((atom) => !isUncounted(atom, rules)).flatMap((atom) => atom.tools);
  const ranges = [...new Set(tools)].map((tool) => toolRange(source, { part, tool }, readings));
  const ends = (end: 'worst' | 'best'): ToolClass =>
    worstOf(
      ranges.map((range) => range[end]),
      TOOL_ORDER,
    );
  return { ...noTool, worst: ends('worst'), best: ends('best'), missing: ranges.flatMap((range) => range.missing) };
};

/** Which releases and liftings are surely in the stretch? One list a fact: whichever of its actions is taken. */
const surelyWithin = (scope: RouteScope, priorityParts: readonly string[]): readonly (readonly RouteAction[])[] => {
  const isLate = afterAllResets(scope, priorityParts);
  const giving = (fact: string): readonly RouteAction[] =>
    scope.candidates.filter((action) => mainFact(action) === fact);
  const late = [...scope.certain].filter((fact) => fact.startsWith('released/') && isLate(fact));
  return [giving(`free/${scope.part}`), ...late.map(giving)];
};

const best = <C extends string>(
  within: readonly (readonly RouteAction[])[],
  rangeOf: (action: RouteAction) => ClassRange<C>,
  order: readonly C[],
): C =>
  worstOf(
    within.map((choices) => {
      const classes = choices.map((action) => rangeOf(action).best);
      return [...order].reverse().find((name) => classes.includes(name)) ?? (order.at(-1) as C);
    }),
    order,
  );

/** The worst class among actions that may be in the stretch, asked from the worst class up, so that few are asked. */
const worst = <C extends string>(
  candidates: readonly RouteAction[],
  {
    scope,
    rangeOf,
    order,
  }: {
    readonly scope: RouteScope;
    readonly rangeOf: (action: RouteAction) => ClassRange<C>;
    readonly order: readonly C[];
  },
): { readonly worst: C; readonly missing: ClassRange<C>['missing'] } => {
  const ranked = candidates.map((action) => ({ action, range: rangeOf(action) }));
  for (const name of order) {
    const found = ranked.find(({ action, range }) => range.worst === name && scope.mayHold(mainFact(action)));
    if (found) return { worst: name, missing: found.range.missing };
  }
  return { worst: order.at(-1) as C, missing: [] };
};

/**
 * Between which classes do the points of a part lie on any route in its scope? From the worst that may be in the stretch (what
 * is surely done before a new stretch begins is not) to the worst of what is surely in it: the lifting away, and each fastener
 * on every route that comes after all other priority parts that could be on one. See docs/method/width.md.
 */
export const classBounds = (scope: RouteScope, judging: Judging, priorityParts: readonly string[]): ClassEnds => {
  const within = surelyWithin(scope, priorityParts);
  const before = surelyBeforeStretch(scope, priorityParts);
  const candidates = scope.candidates.filter((action) => !before.has(mainFact(action)));
  const releases = candidates.filter((action) => action.kind === 'release');
  const fastener = (action: RouteAction): ClassRange<FastenerClass> => fastenerOf(action, judging);
  const tool = (action: RouteAction): ClassRange<ToolClass> => toolOf(action, judging);
  const why = 'over every action that could be in the stretch';
  return {
    fastener: {
      ...worst(releases, { scope, rangeOf: fastener, order: FASTENER_ORDER }),
      best: best(within.slice(1), fastener, FASTENER_ORDER),
      evidence: [],
      why,
    },
    tool: {
      ...worst(candidates, { scope, rangeOf: tool, order: TOOL_ORDER }),
      best: best(within, tool, TOOL_ORDER),
      evidence: [],
      why,
    },
  };
};

/** Is every class that the candidates of a scope could meet known? */
export const classesAreKnown = (scope: RouteScope, judging: Judging): boolean =>
  scope.candidates.every((action) => {
    const tool = toolOf(action, judging);
    if (tool.worst !== tool.best) return false;
    if (action.kind !== 'release') return true;
    const fastener = fastenerOf(action, judging);
    return fastener.worst === fastener.best;
  });
