import type { MissingFact } from '#quantity/explained';
import type { DevicePart } from '#record/device/device';
import type { RouteSource } from '#routes/problem/from-record';
import { type SequenceItem, sequenceStretch } from '#routes/sequence/bench-sequence';
import type { PriorityRole } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import type { ClassEnds } from './class-bounds.ts';
import { type JudgedSequence, type Judging, judgeSequence, priorityPartsOf } from './judge-sequence.ts';
import { type ObservedChoice, type ObservedChoices, observedChoices } from './observed-choices.ts';
import { observedEnds, stepsOf } from './observed-ends.ts';
import { observedHarm, withHarm } from './observed-harm.ts';
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
  context: { readonly source: RouteSource; readonly readings: Interpretations },
): ObservedBasis | undefined => {
  const choices = observedChoices(context.source, part.id);
  if (!choices) return undefined;
  const judging: Judging = { ...context, part: part.id, ...commonStretch(choices, { ...context, part: part.id }) };
  const keepsAll = context.readings['session-order'] === 'all-actions';
  const chosen = keepsAll ? choices.whole : fewestOf(choices.shown, judging);
  const judged = judgeSequence(counted(chosen, judging), judging);
  const main = judgedFinding(part, judged, context);
  const possible = keepsAll ? choices.whole : fewestOf(choices.possible, judging);
  const fewest =
    keepsAll || choices.isSettled ? judged.steps : Math.min(stepsOf(possible.items, judging), judged.steps);
  const wide = wideFinding(part, { judged, main, fewest, choices }, judging);
  const harm = observedHarm(chosen.items, context.source);
  const isEverywhere = (keepsAll ? [choices.whole] : choices.possible).every(
    ({ items }) => observedHarm(items, context.source).damaging.length > 0,
  );
  return {
    part: part.id,
    role: part.role as PriorityRole,
    main: withHarm(main, harm, true),
    wide: withHarm(wide, harm, isEverywhere),
    judged,
    shownSteps: judged.steps,
    fewestSteps: fewest,
    proved: true,
    sessions: chosen.sessions,
  };
};

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

const counted = (choice: ObservedChoice, { readings }: Judging): readonly SequenceItem[] =>
  readings['failed-attempts'] === 'counted' ? choice.withFailures : choice.items;

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

const wideFinding = (
  part: DevicePart,
  at: {
    readonly judged: JudgedSequence;
    readonly main: PartBasis['main'];
    readonly fewest: number;
    readonly choices: ObservedChoices;
  },
  judging: Judging,
): PartBasis['wide'] => {
  const { judged, main, fewest, choices } = at;
  const { unnamed } = choices;
  const settled = judging.readings['session-order'] === 'all-actions' || choices.isSettled;
  const ends = settled ? judged : observedEnds(judged, choices, judging);
  const known = endsWithUnknownTools(judged, judging.readings);
  const steps = {
    worst: known.worst + MOST_STEPS_OF_UNNAMED * unnamed.length,
    best: Math.min(known.best, endsWithUnknownTools({ ...judged, steps: fewest }, judging.readings).best),
  };
  const missing = [...(settled ? [] : neededOpen(part)), ...unnamed.map(unnamedMark)];
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
