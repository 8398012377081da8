import type { Explained, MissingFact } from '#quantity/explained';
import type { RouteSource } from '#routes/problem/from-record';
import { PRIORITY_ROLE_NAMES } from '#routes/problem/priority-roles';
import { flatAtoms, type SequenceItem, sequenceStretch } from '#routes/sequence/bench-sequence';
import { type CountedStep, countSteps, isUncounted } from '#routes/steps/step-counter';
import type { FastenerClass, ToolClass } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { countingRulesFor } from '../readings.ts';
import { FASTENER_ORDER, TOOL_ORDER, worstOf } from './basis-rules.ts';
import { type ClassRange, fastenerRange, toolRange } from './class-ranges.ts';
import type { IndexSource } from './pairing.ts';
import { classTree, stepsTree } from './sequence-trees.ts';
import { missingHolders, withUnknownHolders } from './unknown-holding.ts';

/** What does a sequence of work count and score for one part, pairing apart? */
export interface JudgedSequence {
  readonly items: readonly SequenceItem[];
  readonly steps: number;
  readonly counted: readonly CountedStep[];
  /** Which item each atom of the count belongs to. */
  readonly itemOf: readonly number[];
  /** Steps that could come on top while tools of some items are not known. */
  readonly unknownTools: readonly string[];
  /** Items of the stretch that fastener and tool points look at. */
  readonly inStretch: ReadonlySet<number>;
  readonly fastener: ClassRange<FastenerClass>;
  readonly tool: ClassRange<ToolClass>;
  readonly trees: { readonly steps: Explained; readonly fastener: Explained; readonly tool: Explained };
}

/** Under what is a sequence judged? */
export interface Judging {
  readonly source: IndexSource;
  readonly readings: Interpretations;
  readonly part: string;
  /** Which items are in the stretch, where a common order of teardown says so; else the part's own sequence does. */
  readonly inStretch?: (item: SequenceItem, index: number) => boolean;
}

/** Which parts of the device are priority parts? */
export const priorityPartsOf = (source: RouteSource): ReadonlySet<string> =>
  new Set(
    [...source.device.parts.values()].filter((part) => PRIORITY_ROLE_NAMES.has(part.role ?? '')).map((part) => part.id),
  );

/** Which tools only hold, by the record? */
export const holdingAidsOfRecord = (source: RouteSource): ReadonlySet<string> =>
  new Set(
    Object.entries(source.assessment.tools ?? {})
      .filter(([, tool]) => tool.holdingAid === true)
      .map(([id]) => id),
  );

/**
 * How many steps is this sequence for one part, and which fastener and tool class decide its points? Steps by the counter;
 * classes the worst over the stretch since the previous priority part (Annex IV point 5), open where no fastener was met and
 * nobody recorded what holds the part.
 */
export const judgeSequence = (items: readonly SequenceItem[], judging: Judging): JudgedSequence => {
  const { source, readings } = judging;
  const rules = countingRulesFor(readings);
  const { atoms, itemOf } = flatAtoms(items);
  const holdingAids = holdingAidsOfRecord(source);
  const counted = countSteps(atoms, rules, holdingAids);
  const stretch = stretchOf(items, judging);
  const within = items.filter((_, index) => stretch.has(index));
  const fasteners = fastenerRanges(within, judging);
  const tools = toolRanges(within, judging);
  const unheld = fasteners.length === 0 ? missingHolders(judging.part, source) : undefined;
  const unknownTools = items
    .filter((item) => item.toolsUnknown && item.atoms.some((atom) => !isUncounted(atom, rules)))
    .map((item) => item.address);
  return {
    items,
    steps: counted.total,
    counted: counted.steps,
    itemOf,
    unknownTools,
    inStretch: stretch,
    fastener: withUnknownHolders(worstRange(fasteners, FASTENER_ORDER, 'no fastener was met in the stretch'), unheld),
    tool: withUnknownHolders(worstRange(tools, TOOL_ORDER, 'no tool was used in the stretch'), unheld),
    trees: lazyTrees({
      steps: () =>
        stepsTree(counted.steps, {
          items,
          itemOf,
          isTool: (tool) => rules.holdingAidsAreTools || !holdingAids.has(tool),
          nameOf: (id) => source.device.parts.get(id)?.name ?? source.device.fasteners.get(id)?.name ?? id,
        }),
      fastener: () => classTree('fastener', fasteners),
      tool: () => classTree('tool', tools),
    }),
  };
};

/** Trees are made when they are first looked at: a search for an end judges hundreds of sequences and looks at none. */
const lazyTrees = (
  make: { readonly [Key in keyof JudgedSequence['trees']]: () => Explained },
): JudgedSequence['trees'] => {
  const made: Partial<Record<keyof typeof make, Explained>> = {};
  const of = (key: keyof typeof make): Explained => {
    const tree = made[key] ?? make[key]();
    made[key] = tree;
    return tree;
  };
  return {
    get steps() {
      return of('steps');
    },
    get fastener() {
      return of('fastener');
    },
    get tool() {
      return of('tool');
    },
  };
};

const stretchOf = (items: readonly SequenceItem[], judging: Judging): ReadonlySet<number> => {
  const { inStretch } = judging;
  if (inStretch) return new Set([...items.keys()].filter((index) => inStretch(items[index] as SequenceItem, index)));
  const from = sequenceStretch(items, judging.part, priorityPartsOf(judging.source));
  return new Set([...items.keys()].slice(from));
};

/** Which fasteners are met among these items, each with its class for the part? */
export const fastenerRanges = (
  stretch: readonly SequenceItem[],
  { source, part }: Judging,
): readonly (readonly [string, ClassRange<FastenerClass>])[] => {
  const met = new Map<string, ClassRange<FastenerClass>>();
  for (const item of stretch)
    for (const { fastener, leaves } of item.released)
      met.set(fastener, fastenerRange(source, { part, fastener, leaves }));
  return [...met];
};

/** Which tools are used among these items, each with its class for the part? */
export const toolRanges = (
  stretch: readonly SequenceItem[],
  { source, part, readings }: Judging,
): readonly (readonly [string, ClassRange<ToolClass>])[] => {
  const rules = countingRulesFor(readings);
  const used = new Map<string, ClassRange<ToolClass>>();
  for (const item of stretch) {
    const counted = item.atoms.filter((atom) => !isUncounted(atom, rules));
    for (const tool of counted.flatMap((atom) => atom.tools))
      used.set(tool, toolRange(source, { part, tool }, readings));
    if (item.toolsUnknown && counted.length > 0) used.set(item.address, unknownTool(item.address));
  }
  return [...used];
};

const unknownTool = (address: string): ClassRange<ToolClass> => ({
  worst: 'below-scale',
  best: 'none',
  missing: [
    {
      address: `${address}/tools`,
      what: `which tools were in use at ${address}`,
      remedy: 'look at the clip and record the tools, [] for bare hands',
    },
  ],
  evidence: [],
  why: 'the tools are not recorded',
});

/** Which class decides among those met: the worst at either end? `none` says why where there is none. */
export const worstRange = <C extends string>(
  met: readonly (readonly [string, ClassRange<C>])[],
  order: readonly C[],
  none: string,
): ClassRange<C> => {
  const ranges = met.map(([, range]) => range);
  const worst = worstOf(
    ranges.map((range) => range.worst),
    order,
  );
  const best = worstOf(
    ranges.map((range) => range.best),
    order,
  );
  const deciding = ranges.filter((range) => range.worst === worst || range.worst !== range.best);
  const missing: MissingFact[] = worst === best ? [] : deciding.flatMap((range) => range.missing);
  return {
    worst,
    best,
    missing,
    evidence: [...new Set(deciding.flatMap((range) => range.evidence))],
    why: ranges.length === 0 ? none : 'the worst met in the stretch',
  };
};
