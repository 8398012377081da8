import type { MissingFact } from '#quantity/explained';
import type { DevicePart } from '#record/device/device';
import type { RouteSource } from '#routes/problem/from-record';
import { type SequenceItem, sequenceStretch } from '#routes/sequence/bench-sequence';
import type { PriorityRole } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import type { ClassEnds } from './class-bounds.ts';
import { type JudgedSequence, type Judging, judgeSequence, priorityPartsOf } from './judge-sequence.ts';
import { choiceOf, type ObservedChoice, type ObservedChoices, observedChoices } from './observed-choices.ts';
import { countedItems, type NeededRange, neededRange, observedEnds, observedSteps, stepsOf } from './observed-ends.ts';
import { type ObservedHarm, observedHarm, withHarm } from './observed-harm.ts';
import type { IndexSource } from './pairing.ts';
import { endsWithUnknownTools, judgedFinding, type PartBasis, widened } from './part-basis.ts';

/** What was observed, with the sessions it was seen in. */
export interface ObservedBasis extends PartBasis {
  readonly sessions: readonly string[];
}

/** Steps that an action can add which has no name yet: itself with two tools, and a change of tool before and after it. */
const MOST_STEPS_OF_UNNAMED = 4;

/**
 * What does the observed basis say of one part? The reference specimen's own actions in their order, up to the part's release,
 * less what reachability shows unneeded: pessimistically for the main value, optimistically for the other end. Undefined where
 * the part never came free on the reference specimen in a run that began complete.
 */
export const observedBasis = (
  part: DevicePart,
  context: { readonly source: IndexSource; readonly readings: Interpretations },
): ObservedBasis | undefined => {
  const choices = observedChoices(context.source, part.id);
  if (!choices) return undefined;
  const judging: Judging = { ...context, part: part.id, ...commonStretch(choices, { ...context, part: part.id }) };
  const keepsAll = context.readings['session-order'] === 'all-actions';
  const chosen = keepsAll ? choices.whole : fewestOf(choices.shown, judging);
  const judged = judgeSequence(countedItems(chosen, judging), judging);
  const main = judgedFinding(part, judged, context);
  const settled = keepsAll || choices.isSettled;
  const fewest = settled
    ? judged.steps
    : Math.min(stepsOf(fewestOf(choices.possible, judging).items, judging), judged.steps);
  const range = settled ? undefined : neededRange(choices, chosen, judging);
  const wide = wideFinding(part, { judged, main, choices, chosen, range }, judging);
  const harm = observedHarm(chosen.items, context.source);
  const open = wideHarm({ choices, chosen, range }, context.source);
  return {
    part: part.id,
    role: part.role as PriorityRole,
    main: withHarm(main, harm, true),
    wide: withHarm(wide, open.harm, open.isEverywhere),
    judged,
    shownSteps: judged.steps,
    fewestSteps: fewest,
    proved: true,
    sessions: chosen.sessions,
    released: releasedIn(settled && !keepsAll ? choices.shown : [choices.whole]),
  };
};

/** In which class a fastener is left chooses among no actions, so that only those of the candidates matter. */
const releasedIn = (choices: readonly ObservedChoice[]): ReadonlySet<string> =>
  new Set(choices.flatMap(({ items }) => items.flatMap(({ released }) => released.map(({ fastener }) => fastener))));

/** The choice with the fewest steps; of equal ones the first, which has fewest and earliest actions. */
const fewestOf = (choices: readonly ObservedChoice[], judging: Judging): ObservedChoice => {
  const [first, ...others] = choices;
  if (!first) throw new RangeError('what was done has at least one choice');
  return others.reduce<{ choice: ObservedChoice; steps: number }>(
    (best, choice) => {
      const steps = stepsOf(choice.items, judging);
      return steps < best.steps ? { choice, steps } : best;
    },
    { choice: first, steps: stepsOf(first.items, judging) },
  ).choice;
};

/**
 * Which items are in the stretch under one common order (interpretation `previous-priority-part`)? Those done after the last
 * other priority part that the whole run had set aside or freed by then, whether or not this part needed it.
 */
const commonStretch = ({ whole }: ObservedChoices, judging: Judging): Pick<Judging, 'inStretch'> => {
  if (judging.readings['previous-priority-part'] !== 'common-order') return {};
  const start = sequenceStretch(whole.items, judging.part, priorityPartsOf(judging.source));
  const later = new Set(whole.withFailures.slice(whole.withFailures.indexOf(whole.items[start] as SequenceItem)));
  const addresses = new Set([...later].map((item) => item.address));
  return { inStretch: (item) => addresses.has(item.address) };
};

interface Needed {
  readonly choices: ObservedChoices;
  /** What the main value rests on. */
  readonly chosen: ObservedChoice;
  /** Undefined where nothing open bears on what was needed. */
  readonly range: NeededRange | undefined;
}

/** What harm may a completion's sequence hold: that of any candidate. And is there damage on each, whichever it is? */
const wideHarm = (
  { choices, chosen, range }: Needed,
  source: RouteSource,
): { readonly harm: ObservedHarm; readonly isEverywhere: boolean } => {
  const least = range ? choices.possible : [chosen];
  const most = range ? choiceOf(source, choices.run, range.maybe) : chosen;
  const isEverywhere = least.every(({ items }) => observedHarm(items, source).damaging.length > 0);
  return { harm: observedHarm(most.items, source), isEverywhere };
};

const wideFinding = (
  part: DevicePart,
  at: {
    readonly judged: JudgedSequence;
    readonly main: PartBasis['main'];
  } & Needed,
  judging: Judging,
): PartBasis['wide'] => {
  const { judged, main, choices, chosen, range } = at;
  const { unnamed } = choices;
  const ends = range ? observedEnds(choices, range, judging) : judged;
  const known = range
    ? observedSteps(choices, { chosen, range }, judging)
    : endsWithUnknownTools(judged, judging.readings);
  const steps = { worst: known.worst + MOST_STEPS_OF_UNNAMED * unnamed.length, best: known.best };
  const missing = [...(range ? neededOpen(part) : []), ...unnamed.map(unnamedMark)];
  return widened(main, { steps, ...(unnamed.length > 0 ? anyClass(ends) : pick(ends)), missing });
};

const pick = ({ fastener, tool }: ClassEnds): ClassEnds => ({ fastener, tool });

/** With marks that have no name yet the stretch may hold anything besides; and a priority part may have begun it anew. */
const anyClass = ({ fastener, tool }: ClassEnds): ClassEnds => ({
  fastener: { ...fastener, worst: 'below-scale', best: 'reusable' },
  tool: { ...tool, worst: 'below-scale', best: 'none' },
});

const neededOpen = (part: DevicePart): readonly MissingFact[] => [
  {
    address: `parts/${part.id}/trials`,
    what: `which of the actions before ${part.name} came were needed`,
    remedy: 'say by sight what had to be off, or try it with less off',
  },
];

const unnamedMark = (address: string): MissingFact => ({
  address,
  what: `what was done at ${address}`,
  remedy: 'look at the clip and name the mark',
});
