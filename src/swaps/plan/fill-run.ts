import { mayBeMade, type Seat } from './bench-runs.ts';
import { type BenchSetup, never } from './bench-setup.ts';
import type { BenchRun, BenchState } from './bench-state.ts';
import type { Offer } from './part-offers.ts';
import { runSeconds } from './run-cost.ts';

/** One run weighed: what it costs and what is expected to be left after it [s]. */
export interface WeighedRun {
  readonly run: BenchRun;
  readonly cost: number;
  /** The least that some part is expected to be spared by it [s]. */
  readonly offers: readonly Offer[];
}

/** What a run of a host is put together from. */
export interface Filling {
  readonly seat: Seat;
  /** For each part what may be done with it. */
  readonly offers: readonly (readonly Offer[])[];
  /** Layers that it may go through beside those that stand open. */
  readonly layers: ReadonlySet<string>;
}

/**
 * Which parts are worth having in a run that goes so deep? First each part's best choice that is within reach, then those are left
 * out without which the whole costs less: what they would save does not pay for their fitting and checks, or they are likely to
 * hide the rest. Parts that stopped a run together are halved. Undefined when such a run cannot be made or tells nothing.
 */
export const fillRun = (setup: BenchSetup, state: BenchState, filling: Filling): WeighedRun | undefined => {
  const { seat } = filling;
  let chosen = filling.offers.map((offers, part) => bestWithin(setup, state, { filling, offers, part }));
  if (!mayBeMade(setup, state, runOf(seat, chosen))) chosen = withCheapest(setup, state, { filling, chosen });
  chosen = halved(state, filling, chosen);
  let cost = runCost(setup, state, { seat, chosen });
  for (let isBetter = true; isBetter; ) {
    isBetter = false;
    for (const [part] of chosen.entries()) {
      const left = leftOut(filling, part);
      if (!left || chosen[part] === left) continue;
      const without = chosen.with(part, left);
      const then = runCost(setup, state, { seat, chosen: without });
      if (then >= cost - ROUNDING || !mayBeMade(setup, state, runOf(seat, without))) continue;
      [chosen, cost, isBetter] = [without, then, true];
    }
  }
  const run = runOf(seat, chosen);
  return mayBeMade(setup, state, run) ? { run, cost, offers: chosen } : undefined;
};

/** Seconds that differ by less are alike. */
const ROUNDING = 1e-7;

const runOf = (seat: Seat, chosen: readonly Offer[]): BenchRun => ({
  ...seat,
  choices: chosen.map(({ choice }) => choice),
});

const leftOut = ({ offers }: Filling, part: number): Offer | undefined =>
  offers[part]?.find(({ choice }) => choice === undefined);

/** The best that can be done with a part within the layers; what has to be done is done whatever lies above it. */
const bestWithin = (
  setup: BenchSetup,
  state: BenchState,
  { filling, offers, part }: { filling: Filling; offers: readonly Offer[]; part: number },
): Offer => {
  const { seat, layers } = filling;
  const { part: of } = setup.parts[part] ?? never();
  const open = state.hosts[seat.host]?.open ?? [];
  const isNear = of.layers.every((layer) => layers.has(layer) || open.includes(layer));
  const near = offers.filter(({ choice }) => !choice?.handled || isNear);
  const own = (offer: Offer): number => offer.rest + ownSeconds(setup, offer);
  return (near.length > 0 ? near : offers).reduce((best, one) => (own(one) < own(best) - ROUNDING ? one : best));
};

/**
 * Where no choice seems worth its seconds, the one that loses least: what is estimated beyond the runs looked ahead may rise by as much
 * as a run costs, and that is no reason to stop. Not for a part that cannot get further.
 */
const withCheapest = (
  setup: BenchSetup,
  state: BenchState,
  { filling, chosen }: { filling: Filling; chosen: readonly Offer[] },
): Offer[] => {
  let best: { readonly offer: Offer; readonly loss: number } | undefined;
  for (const offer of filling.offers.flat()) {
    const now = chosen[offer.part];
    if (!offer.choice || !offer.isOpen || !now) continue;
    const loss = ownSeconds(setup, offer) + offer.rest - ownSeconds(setup, now) - now.rest;
    if (best && loss >= best.loss - ROUNDING) continue;
    if (mayBeMade(setup, state, runOf(filling.seat, chosen.with(offer.part, offer)))) best = { offer, loss };
  }
  return best ? chosen.with(best.offer.part, best.offer) : [...chosen];
};

/** What fitting, steps and checks of a part take, and what is then left [s]. */
const ownSeconds = (setup: BenchSetup, { part, choice }: Offer): number => {
  const { part: of } = setup.parts[part] ?? never();
  return choice ? of.checkSeconds + (choice.handled ? of.fitSeconds : 0) + stepSeconds(of, choice) : 0;
};

const stepSeconds = (of: BenchSetup['parts'][number]['part'], choice: NonNullable<Offer['choice']>): number =>
  (choice.authorised ? (of.authoriseSeconds ?? 0) : 0) +
  (choice.calibrated ? (of.calibrateSeconds ?? 0) : 0) +
  (choice.identityMoved ? (of.identitySeconds ?? 0) : 0);

/** Of parts that stopped a run together, the half that promises least is left out. */
const halved = (state: BenchState, filling: Filling, chosen: readonly Offer[]): Offer[] => {
  const { host } = filling.seat;
  let left = [...chosen];
  for (const pool of state.hidden) {
    const inRun = pool.filter((part) => isForeign(left[part], host));
    if (inRun.length < pool.length) continue;
    const droppable = inRun
      .filter((part) => leftOut(filling, part) ?? ownOffer(filling, part))
      .sort((a, b) => savingOf(filling, left, a) - savingOf(filling, left, b));
    const dropped = droppable.slice(0, Math.ceil(pool.length / 2));
    for (const part of dropped) left = left.with(part, leftOut(filling, part) ?? ownOffer(filling, part) ?? never());
  }
  return left;
};

const isForeign = (offer: Offer | undefined, host: number): boolean =>
  offer?.choice !== undefined && offer.choice.piece !== host;

/** Where a part cannot be left as it is, its own piece is put back. */
const ownOffer = ({ offers, seat }: Filling, part: number): Offer | undefined =>
  offers[part]?.find(({ choice }) => choice?.piece === seat.host);

const savingOf = (filling: Filling, chosen: readonly Offer[], part: number): number =>
  (leftOut(filling, part)?.rest ?? 0) - (chosen[part]?.rest ?? 0);

/** What a run costs and leaves to pay, with the chance that one foreign piece hides what the others show [s]. */
const runCost = (
  setup: BenchSetup,
  state: BenchState,
  { seat, chosen }: { seat: Seat; chosen: readonly Offer[] },
): number => {
  const { hides } = setup.problem;
  const foreign = chosen.filter((offer) => isForeign(offer, seat.host));
  const stopping = ({ part, failing }: Offer): number => failing * (state.parts[part]?.stops ? 1 : hides);
  const open = foreign.reduce((chance, offer) => chance * (1 - stopping(offer)), 1);
  let cost = runSeconds(setup, state, runOf(seat, chosen));
  for (const offer of chosen) {
    const isAlone = foreign.length === 1 && foreign[0] === offer;
    const hidden = isAlone ? 0 : 1 - open;
    cost += (1 - hidden) * offer.rest + hidden * offer.hiddenRest;
  }
  return cost;
};
