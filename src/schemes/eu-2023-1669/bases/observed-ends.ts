import { addressOf } from '#record/log/bench-log';
import type { RouteSource } from '#routes/problem/from-record';
import { flatAtoms, type SequenceItem } from '#routes/sequence/bench-sequence';
import { countSteps, isUncounted } from '#routes/steps/step-counter';
import { countingRulesFor } from '../readings.ts';
import { FASTENER_ORDER, TOOL_ORDER } from './basis-rules.ts';
import type { ClassEnds } from './class-bounds.ts';
import {
  fastenerRanges,
  holdingAidsOfRecord,
  type Judging,
  priorityPartsOf,
  toolRanges,
  worstRange,
} from './judge-sequence.ts';
import { choiceOf, type ObservedChoice, type ObservedChoices } from './observed-choices.ts';
import { endsWithUnknownTools } from './part-basis.ts';

/** How many steps does a sequence count under these readings? */
export const stepsOf = (items: readonly SequenceItem[], { source, readings }: Judging): number =>
  countSteps(flatAtoms(items).atoms, countingRulesFor(readings), holdingAidsOfRecord(source)).total;

const intersection = (sets: readonly ReadonlySet<number>[]): ReadonlySet<number> => {
  const [first, ...others] = sets;
  return new Set([...(first ?? [])].filter((index) => others.every((set) => set.has(index))));
};

/** Which actions are needed in every completion of the record, and which may be in some? By index in the run. */
export interface NeededRange {
  readonly surely: ReadonlySet<number>;
  readonly maybe: ReadonlySet<number>;
}

/**
 * Which actions may be needed in some completion, and which are in every one? A completion's own set counts no more than the
 * shown one, failed attempts apart, and leaving actions out never raises a count: what would exceed it together with what is
 * surely needed is no candidate. An action whose tools are not recorded counts at its most on one side, its least on the other.
 */
export const neededRange = (choices: ObservedChoices, chosen: ObservedChoice, judging: Judging): NeededRange => {
  const { run, shown, possible, whole } = choices;
  const most = stepEnds(chosen.items, judging).worst;
  const surely = intersection(possible.map(({ kept }) => kept));
  const needed = new Set([...shown, chosen].flatMap(({ kept }) => [...kept]));
  const fits = (index: number): boolean =>
    stepEnds(choiceOf(judging.source, run, new Set([...surely, index])).items, judging).best <= most;
  return { surely, maybe: new Set([...whole.kept].filter((index) => needed.has(index) || fits(index))) };
};

const stepEnds = (
  items: readonly SequenceItem[],
  judging: Judging,
): { readonly worst: number; readonly best: number } => {
  const rules = countingRulesFor(judging.readings);
  const unknown = items.filter((item) => item.toolsUnknown && item.atoms.some((atom) => !isUncounted(atom, rules)));
  const unknownTools = unknown.map(({ address }) => address);
  return endsWithUnknownTools({ steps: stepsOf(items, judging), unknownTools }, judging.readings);
};

/** What of a choice is counted: the failed attempts too, where the reading says so? */
export const countedItems = (
  choice: ObservedChoice,
  { readings }: Pick<Judging, 'readings'>,
): readonly SequenceItem[] => (readings['failed-attempts'] === 'counted' ? choice.withFailures : choice.items);

/**
 * Between which counts do the steps lie, whichever of the actions in question were needed? A completion's set holds one of the
 * possible sets and nothing but candidates. Failed attempts do not decide which set counts least, so that set may bring more of
 * them than the shown one; where they count, all on any candidate are in the upper end. Else the shown set is the most.
 */
export const observedSteps = (
  choices: ObservedChoices,
  { chosen, range }: { readonly chosen: ObservedChoice; readonly range: NeededRange },
  judging: Judging,
): { readonly worst: number; readonly best: number } => {
  const ends = (choice: ObservedChoice) => stepEnds(countedItems(choice, judging), judging);
  const shown = ends(chosen);
  const most =
    judging.readings['failed-attempts'] === 'counted'
      ? ends(choiceOf(judging.source, choices.run, range.maybe)).worst
      : shown.worst;
  return {
    worst: Math.max(shown.worst, most),
    best: Math.min(shown.best, ...choices.possible.map((choice) => ends(choice).best)),
  };
};

/** Which other priority parts does an action move, those on or in what it moves with them? */
const resetsBy = (choices: ObservedChoices, { source, part }: Judging): ((index: number) => readonly string[]) => {
  const others = priorityPartsOf(source);
  return (index) => {
    const effects = choices.run.actions[index]?.effects;
    if (!effects) return [];
    const moved = [...effects.freed, ...effects.aside].flatMap((id) => clusterOf(source, id));
    return moved.filter((id) => id !== part && others.has(id));
  };
};

const clusterOf = (source: RouteSource, id: string): readonly string[] => [
  ...(source.device.parts.get(id)?.cluster ?? [id]),
];

/** The earliest and the latest action after which the stretch can begin; -1 is the complete product. */
const stretchStarts = (
  choices: ObservedChoices,
  sets: NeededRange,
  judging: Judging,
): { readonly earliest: number; readonly latest: number } => {
  const resets = resetsBy(choices, judging);
  const before = (set: ReadonlySet<number>): readonly number[] => [...set].filter((index) => index < choices.run.last);
  const maybe = before(sets.maybe);
  const latest = Math.max(-1, ...maybe.filter((index) => resets(index).length > 0));
  // A part surely moved may have been moved before already, by an action that is only maybe needed.
  const surelyMoved = new Set(before(sets.surely).flatMap(resets));
  const firsts = [...surelyMoved].map((part) => Math.min(...maybe.filter((index) => resets(index).includes(part))));
  return { earliest: Math.max(-1, ...firsts), latest };
};

/**
 * Between which classes do the points lie, whichever of the actions in question were needed? The longest stretch has every
 * candidate after its earliest start, the shortest only what is surely needed after its latest. Failed attempts, where they
 * count, go by their own moment: one before the start lies outside, though what it tried came off later.
 */
export const observedEnds = (choices: ObservedChoices, sets: NeededRange, judging: Judging): ClassEnds => {
  const { earliest, latest } = judging.inStretch ? { earliest: -1, latest: -1 } : stretchStarts(choices, sets, judging);
  const inStretch = judging.inStretch ?? (() => true);
  const within = (set: ReadonlySet<number>, from: number): readonly SequenceItem[] => {
    const later = new Set(choices.run.actions.slice(from + 1).map(addressOf));
    const items = countedItems(choiceOf(judging.source, choices.run, set), judging);
    return items.filter((item, index) => later.has(item.address) && inStretch(item, index));
  };
  const longest = within(sets.maybe, earliest);
  const shortest = within(sets.surely, latest);
  const why = 'over every action that may have been needed';
  return {
    fastener: {
      ...worstRange(fastenerRanges(longest, judging), FASTENER_ORDER, why),
      best: worstRange(fastenerRanges(shortest, judging), FASTENER_ORDER, why).best,
    },
    tool: {
      ...worstRange(toolRanges(longest, judging), TOOL_ORDER, why),
      best: worstRange(toolRanges(shortest, judging), TOOL_ORDER, why).best,
    },
  };
};
