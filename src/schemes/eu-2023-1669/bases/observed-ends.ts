import type { RouteSource } from '#routes/problem/from-record';
import { flatAtoms, type SequenceItem } from '#routes/sequence/bench-sequence';
import { countSteps } from '#routes/steps/step-counter';
import { countingRulesFor } from '../readings.ts';
import { FASTENER_ORDER, TOOL_ORDER } from './basis-rules.ts';
import type { ClassEnds } from './class-bounds.ts';
import {
  fastenerRanges,
  holdingAidsOfRecord,
  type JudgedSequence,
  type Judging,
  priorityPartsOf,
  toolRanges,
  worstRange,
} from './judge-sequence.ts';
import { choiceOf, type ObservedChoices } from './observed-choices.ts';

/** How many steps does a sequence count under these readings? */
export const stepsOf = (items: readonly SequenceItem[], { source, readings }: Judging): number =>
  countSteps(flatAtoms(items).atoms, countingRulesFor(readings), holdingAidsOfRecord(source)).total;

const intersection = (sets: readonly ReadonlySet<number>[]): ReadonlySet<number> => {
  const [first, ...others] = sets;
  return new Set([...(first ?? [])].filter((index) => others.every((set) => set.has(index))));
};

/**
 * Which actions may be needed in some completion, and which are in every one? A completion never needs more steps than shown,
 * and leaving actions out never raises a count: what would exceed it together with what is surely needed is no candidate.
 */
const candidatesOf = (
  choices: ObservedChoices,
  mostSteps: number,
  judging: Judging,
): { readonly surely: ReadonlySet<number>; readonly maybe: ReadonlySet<number> } => {
  const { run, shown, possible, whole } = choices;
  const surely = intersection(possible.map(({ kept }) => kept));
  const needed = new Set(shown.flatMap(({ kept }) => [...kept]));
  const fits = (index: number): boolean =>
    stepsOf(choiceOf(judging.source, run, new Set([...surely, index])).items, judging) <= mostSteps;
  return { surely, maybe: new Set([...whole.kept].filter((index) => needed.has(index) || fits(index))) };
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
  sets: { readonly surely: ReadonlySet<number>; readonly maybe: ReadonlySet<number> },
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
 * candidate after its earliest start, the shortest only what is surely needed after its latest.
 */
export const observedEnds = (judged: JudgedSequence, choices: ObservedChoices, judging: Judging): ClassEnds => {
  const sets = candidatesOf(choices, judged.steps, judging);
  const { earliest, latest } = judging.inStretch ? { earliest: -1, latest: -1 } : stretchStarts(choices, sets, judging);
  const inStretch = judging.inStretch ?? (() => true);
  const within = (set: ReadonlySet<number>, from: number): readonly SequenceItem[] =>
    choiceOf(judging.source, choices.run, new Set([...set].filter((index) => index > from))).items.filter(inStretch);
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
