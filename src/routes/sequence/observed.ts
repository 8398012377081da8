import type { RouteSource } from '../problem/from-record.ts';
import type { Reach } from '../problem/route-problem.ts';
import type { SequenceItem } from './bench-sequence.ts';
import { NeededActions } from './needed-actions.ts';
import { type FailedItem, observedItems } from './observed-items.ts';
import { observedRun } from './observed-run.ts';

/** Which specimen is the reference? The one named; else that of the first session to start. */
export const referenceSpecimen = (source: RouteSource): string | undefined => {
  const sessions = Object.values(source.assessment.sessions ?? {});
  const first = sessions.toSorted((a, b) => Date.parse(a.start) - Date.parse(b.start))[0];
  return source.assessment.product.reference ?? first?.specimen;
};

/** What did the reference specimen's own log do to free one part? The items kept, in their order, and the sessions they stand in. */
export interface ObservedSequence {
  readonly items: readonly SequenceItem[];
  readonly sessions: readonly string[];
  /** Failed attempts on what was needed, with the heat and solvent only they used; they count only by the switch. */
  readonly failed: readonly FailedItem[];
  /** Addresses of marks before the part came free that have no name yet; any of them may have been needed. */
  readonly unnamed: readonly string[];
  /** True where not every choice among alternatives was looked at; see {@link NeededActions}. */
  readonly capped: boolean;
}

/**
 * What of the reference specimen's own actions does a part need? Its log in order up to the part's release, less what
 * reachability shows unneeded; all of it where `keepAll`. Where alternatives of sets are left, `fewest` judges them; of equal
 * counts the one with fewest and earliest actions stands. Undefined where the part never came free on the reference specimen
 * in a run that began complete. See docs/method/observed-basis.md.
 */
export const observedSequence = (
  source: RouteSource,
  part: string,
  options: {
    readonly reach: Reach;
    readonly keepAll: boolean;
    readonly fewest: (items: readonly SequenceItem[]) => number;
  },
): ObservedSequence | undefined => {
  const run = observedRun(source, part, referenceSpecimen(source));
  if (!run) return undefined;
  const { sets, capped } = options.keepAll
    ? { sets: [new Set(run.actions.slice(0, run.last + 1).keys())], capped: false }
    : new NeededActions(source, run, options.reach).choices();
  let best: { readonly steps: number; readonly sequence: ObservedSequence } | undefined;
  for (const kept of sets) {
    const sequence = { ...observedItems(source, run, kept), capped };
    const steps = sets.length === 1 ? 0 : options.fewest(sequence.items);
    if (!best || steps < best.steps) best = { steps, sequence };
  }
  return best?.sequence;
};
