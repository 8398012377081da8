import type { Belief } from './belief-graph.ts';
import { optionsOf, type Seat } from './bench-runs.ts';
import { type BenchSetup, type Choice, never, settingKey, settingOf } from './bench-setup.ts';
import { type BenchState, benchAfter } from './bench-state.ts';
import { partStop, type Worth } from './prices.ts';
import type { Shares, SoloValues } from './solo-values.ts';

/** What one choice for one part is good for; no choice is to leave it as it is. */
export interface Offer {
  readonly part: number;
  readonly choice: Choice | undefined;
  /** What this part is then expected still to cost [s], alone and charged its share of what it has in common with others. */
  readonly rest: number;
  /** The same when another part hides what it shows [s]. */
  readonly hiddenRest: number;
  /** Chance that it is a foreign piece and fails. */
  readonly failing: number;
  /** Is the part undecided, and expected to get further? */
  readonly isOpen: boolean;
}

/** How are offers weighed? */
export interface OfferWeights {
  readonly solo: SoloValues;
  readonly shares: Shares;
  /** Parts, by index, that still count. */
  readonly open: ReadonlySet<number>;
  /** Runs that each part is looked ahead. */
  readonly ahead: number;
  readonly worth: Worth;
}

/** What is each choice for a part good for in a run of this host on this firmware? */
export const partOffers = (
  setup: BenchSetup,
  state: BenchState,
  { part, seat, weights }: { part: number; seat: Seat; weights: OfferWeights },
): readonly Offer[] =>
  optionsOf(setup, state, { part, ...seat }).map((choice) => offer(setup, state, { part, seat, weights, choice }));

const offer = (
  setup: BenchSetup,
  state: BenchState,
  { part, seat, weights, choice }: { part: number; seat: Seat; weights: OfferWeights; choice: Choice | undefined },
): Offer => {
  const alone = { ...seat, choices: setup.parts.map((_, index) => (index === part ? choice : undefined)) };
  const after = benchAfter(setup, state, alone);
  const now = after.parts[part] ?? never();
  const { solo, shares, ahead } = weights;
  const value = (belief: Belief): number =>
    weights.open.has(part)
      ? solo.likely(setup, { part, state: { ...now, belief }, hosts: after.hosts, shares }, ahead)
      : 0;
  const held = value(now.belief);
  const isOpen = held > 0 && held < partStop(setup, now, { index: part, worth: weights.worth });
  if (!choice) return { part, choice, rest: held, hiddenRest: held, failing: 0, isOpen };
  const placed = { part, ...seat, choice };
  const { beliefs } = setup.parts[part] ?? never();
  const branches = beliefs.foresee(now.belief, () => settingOf(setup, placed), settingKey(placed));
  const fails = branches.find(({ outcome }) => outcome === 'failed')?.chance ?? 0;
  return {
    part,
    choice,
    rest: branches.reduce((sum, { chance, next }) => sum + chance * value(next), 0),
    hiddenRest: held,
    isOpen,
    failing: choice.piece === seat.host ? 0 : fails,
  };
};
