import { type Seat, seats } from './bench-runs.ts';
import type { BenchSetup } from './bench-setup.ts';
import type { BenchRun, BenchState } from './bench-state.ts';
import { controlRun } from './control-run.ts';
import { fillRun, type WeighedRun } from './fill-run.ts';
import { type OfferWeights, partOffers } from './part-offers.ts';
import { partStop, type Worth } from './prices.ts';
import { equalShares, type Shares, type SoloValues } from './solo-values.ts';

/** How is the next run chosen where an exact search is out of reach? */
export interface Policy {
  readonly solo: SoloValues;
  readonly worth: Worth;
  /** Runs that each part is looked ahead, were it alone. */
  readonly ahead: number;
  /** A part that so many runs have not decided is given up. */
  readonly mostRuns: number;
  /** Shares met before, so that equal ones are the same object. */
  readonly shares: Map<string, Shares>;
}

/**
 * Which run is to be made next? The one after which least is expected to be left to pay: its own seconds, and for each part what it
 * would cost alone, charged its share of openings and starts. Of one opening all parts are fitted together for which that saves
 * more than it costs, and as long as what one of them may hide does not eat it up. Refit controls that are asked for come first. Undefined when nothing is open any more or no
 * run can tell anything.
 */
export const chooseRun = (setup: BenchSetup, state: BenchState, policy: Policy): BenchRun | undefined => {
  const open = openParts(setup, state, policy);
  if (open.length === 0) return undefined;
  const control = controlRun(setup, state, open);
  if (control) return control;
  const weights = {
    solo: policy.solo,
    shares: sharesOf(setup, open, policy),
    open: new Set(open),
    ahead: policy.ahead,
    worth: policy.worth,
  };
  let best: WeighedRun | undefined;
  for (const seat of seats(setup, state)) {
    const found = bestOfSeat(setup, state, { seat, weights });
    if (found && (!best || found.cost < best.cost - ROUNDING)) best = found;
  }
  return best?.run;
};

/** Counts are rounded down to powers of two: what a part costs alone is then looked up again as others are decided. */
const sharesOf = (setup: BenchSetup, open: readonly number[], { shares }: Policy): Shares => {
  const rounded = equalShares(setup, open, (count) => 2 ** Math.floor(Math.log2(count)));
  const key = JSON.stringify([rounded.run, Object.entries(rounded.layer).sort()]);
  const kept = shares.get(key) ?? rounded;
  shares.set(key, kept);
  return kept;
};

/** Seconds that differ by less are alike. */
const ROUNDING = 1e-7;

/** Parts, by index, that are not decided in as many hosts as asked for, and not given up. */
export const openParts = (setup: BenchSetup, state: BenchState, { worth, mostRuns }: Policy): readonly number[] =>
  state.parts.flatMap((part, index) =>
    part.made < mostRuns && partStop(setup, part, { index, worth }) > 0 ? [index] : [],
  );

const bestOfSeat = (
  setup: BenchSetup,
  state: BenchState,
  { seat, weights }: { seat: Seat; weights: OfferWeights },
): WeighedRun | undefined => {
  const offers = setup.parts.map((_, part) => partOffers(setup, state, { part, seat, weights }));
  // A place that is empty and can be filled no more: the host cannot be run.
  if (offers.some((ofPart) => ofPart.length === 0)) return undefined;
  let best: WeighedRun | undefined;
  for (const layers of depths(setup)) {
    const found = fillRun(setup, state, { seat, offers, layers });
    if (found && (!best || found.cost < best.cost - ROUNDING)) best = found;
  }
  return best;
};

/** Sets of layers that a run may go through: none, those above each part, and all. */
const depths = (setup: BenchSetup): readonly ReadonlySet<string>[] => {
  const above = setup.parts.map(({ part }) => part.layers);
  const unique = new Map(
    [[], ...above, above.flat()].map((layers) => [[...new Set(layers)].sort().join('\n'), layers]),
  );
  return [...unique.values()].map((layers) => new Set(layers));
};
