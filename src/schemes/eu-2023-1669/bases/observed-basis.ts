import type { DevicePart } from '#record/device/device';
import type { RouteSource } from '#routes/problem/from-record';
import type { SequenceItem } from '#routes/sequence/bench-sequence';
import { type ObservedSequence, observedSequence } from '#routes/sequence/observed';
import type { PriorityRole } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { FASTENER_ORDER, TOOL_ORDER, worstOf } from './basis-rules.ts';
import { type JudgedSequence, type Judging, judgeSequence } from './judge-sequence.ts';
import { judgedFinding, type PartBasis, widened } from './part-basis.ts';

/** What was observed, with the sessions it was seen in. */
export interface ObservedBasis extends PartBasis {
  readonly sessions: readonly string[];
}

/**
 * What does the observed basis say of one part? The reference specimen's own actions in their order, up to the part's release,
 * less what reachability shows unneeded: pessimistically for the main value, optimistically for the other end. Undefined where
 * the part never came free on the reference specimen in a run that began complete.
 */
export const observedBasis = (
  part: DevicePart,
  context: { readonly source: RouteSource; readonly readings: Interpretations },
): ObservedBasis | undefined => {
  const { source, readings } = context;
  const judging: Judging = { ...context, part: part.id };
  const keepAll = readings['session-order'] === 'all-actions';
  const fewest = (items: readonly SequenceItem[]): number => judgeSequence(items, judging).steps;
  const counted = (sequence: ObservedSequence): readonly SequenceItem[] =>
    readings['failed-attempts'] === 'counted' ? withFailures(sequence) : sequence.items;
  const shown = observedSequence(source, part.id, { reach: 'pessimistic', keepAll, fewest });
  const possible = observedSequence(source, part.id, { reach: 'optimistic', keepAll, fewest });
  if (!shown || !possible) return undefined;
  const judged = judgeSequence(counted(shown), judging);
  const least = judgeSequence(counted(possible), judging);
  const main = judgedFinding(part, judged, context);
  const ends = classEnds(judged, least, judging);
  const best = Math.min(least.steps, judged.steps);
  const worst = judged.steps + 2 * judged.unknownTools.length;
  const missing =
    best < judged.steps
      ? [
          {
            address: `parts/${part.id}/trials`,
            what: `which of the actions before ${part.name} came were needed`,
            remedy: 'say by sight what had to be off, or try it with less off',
          },
        ]
      : [];
  const wide = widened(main, { steps: { worst, best }, ...ends, missing });
  return {
    part: part.id,
    role: part.role as PriorityRole,
    main,
    wide,
    judged,
    shownSteps: judged.steps,
    fewestSteps: best,
    proved: true,
    sessions: shown.sessions,
  };
};

const withFailures = (sequence: ObservedSequence): readonly SequenceItem[] => {
  const items: SequenceItem[] = [];
  for (let index = 0; index <= sequence.items.length; index++) {
    items.push(...sequence.failed.filter((failure) => failure.before === index).map((failure) => failure.item));
    const item = sequence.items[index];
    if (item) items.push(item);
  }
  return items;
};

/**
 * Between which classes do the points lie, whichever of the actions in question were needed? The stretch is longest from the
 * earliest start with all shown actions in it, and at least what is surely needed after the latest start.
 */
const classEnds = (
  shown: JudgedSequence,
  least: JudgedSequence,
  judging: Judging,
): Pick<JudgedSequence, 'fastener' | 'tool'> => {
  const surely = new Set(least.items.map((item) => item.address));
  const lastReset = least.items[least.stretchFrom - 1]?.address;
  const from = Math.min(shown.stretchFrom, shown.items.findIndex((item) => item.address === lastReset) + 1);
  const longest = judgeSequence(shown.items, { ...judging, stretchFrom: from });
  const shortest = judgeSequence(
    shown.items.slice(shown.stretchFrom).filter((item) => surely.has(item.address)),
    { ...judging, stretchFrom: 0 },
  );
  return {
    fastener: {
      ...longest.fastener,
      worst: worstOf([longest.fastener.worst, shown.fastener.worst], FASTENER_ORDER),
      best: shortest.fastener.best,
    },
    tool: {
      ...longest.tool,
      worst: worstOf([longest.tool.worst, shown.tool.worst], TOOL_ORDER),
      best: shortest.tool.best,
    },
  };
};
