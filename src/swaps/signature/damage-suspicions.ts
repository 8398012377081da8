import type { Suspicion } from '../model/suspicion.ts';
import type { OrderedSetting } from './placed-run.ts';

/** More forms of handling damage than these are not listed: fewer hosts at once are considered instead. */
const MOST_FORMS = 4000;

/** The forms of handling damage, and in how many hosts at once where not all combinations are listed. */
export interface DamageSuspicions {
  readonly suspicions: readonly Suspicion[];
  readonly atOnce?: number;
}

/**
 * Which hosts may have been damaged, each from which run on? Every combination of hosts, each with one of the runs for which its
 * place was handled. Where that is more than 4000, only combinations of as many hosts at once as stay below it (at least one),
 * and the result says so: a bench of two specimens gets there with 62 handled runs each.
 */
export const damageSuspicions = (runs: readonly OrderedSetting[]): DamageSuspicions => {
  const onsets = onsetsByHost(runs);
  const hosts = onsets.length;
  let atOnce = hosts;
  while (atOnce > 1 && formCount(onsets, atOnce) > MOST_FORMS) atOnce -= 1;
  const suspicions = combinations(onsets, atOnce).map(
    (chosen): Suspicion => ({ explanation: 'handling-damage', damagedFrom: Object.fromEntries(chosen) }),
  );
  return atOnce < hosts ? { suspicions, atOnce } : { suspicions };
};

type Onsets = readonly (readonly [host: string, orders: readonly number[]])[];
type Chosen = readonly (readonly [host: string, order: number])[];

/** Hosts in the order in which they were first opened. */
const onsetsByHost = (runs: readonly OrderedSetting[]): Onsets => {
  const onsets = new Map<string, number[]>();
  const handled = runs.filter((run) => run.handled).sort((a, b) => a.order - b.order);
  for (const { host, order } of handled) onsets.set(host, [...(onsets.get(host) ?? []), order]);
  return [...onsets];
};

/** How many choices of 1 to `atOnce` hosts with one onset each? Coefficients of the product of (1 + n x) over the hosts. */
const formCount = (onsets: Onsets, atOnce: number): number => {
  let counts = [1];
  for (const [, orders] of onsets)
    counts = [...counts, 0].map((count, size) => count + (counts[size - 1] ?? 0) * orders.length);
  return counts.slice(1, atOnce + 1).reduce((sum, count) => sum + count, 0);
};

/** All choices, those of fewer hosts first. */
const combinations = (onsets: Onsets, atOnce: number): readonly Chosen[] => {
  let chosen: Chosen[] = [[]];
  for (const [host, orders] of onsets) {
    const grown = chosen
      .filter((some) => some.length < atOnce)
      .flatMap((some) => orders.map((order): Chosen => [...some, [host, order]]));
    chosen = [...chosen, ...grown];
  }
  return chosen.filter((some) => some.length > 0).sort((a, b) => a.length - b.length);
};
