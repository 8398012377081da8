import { rational } from '#quantity/rational';
import type { DevicePart } from '#record/device/device';
import { expectedTime } from '#routes/expected/expected-time';
import { leastDamage } from '#routes/expected/least-damage';
import { isUsable } from '#routes/least-time/least-time';
import type { RouteAction, RouteProblem } from '#routes/problem/route-problem';
import { bestSure, doubtfulOnEvery, fewestPossible } from '#schemes/eu-2023-1669/bases/best-search';
import { missingHolders } from '#schemes/eu-2023-1669/bases/unknown-holding';
import { keptByProblem } from '../../parts/kept-by-problem.ts';
import { exactText } from '../exact-text.ts';
import type { MetricValue } from '../metric-value.ts';
import type { MetricSource } from './metric-source.ts';

/** What damage and being stranded are taken to cost in the expected time [ms]: an hour each, an assumption of this tool. */
const LOSSES = { damageMilliseconds: 3_600_000, strandedMilliseconds: 3_600_000 };
/** States a search may enter before its bound is used. */
const LIMITS = { states: 5000 };

const BY_ODDS =
  'by the odds as estimated, with means of the times measured; its width is that of the trials not made and times not known';

/**
 * Is any route to the part possible, and is one sure? Sure is a route that is shown, of a part of which it is recorded what holds
 * it, over ways of which somebody looked what they leave: a way nobody looked at may turn out to destroy, and then it is none.
 */
const reachOf = (part: DevicePart, { groundwork, readings }: MetricSource) => {
  const { problems, source } = groundwork;
  const judging = { source, readings, part: part.id };
  const isPossible = fewestPossible(problems, [`free/${part.id}`], judging).kind === 'found';
  const isHeld = missingHolders(part.id, source) === undefined;
  const isLooked = doubtfulOnEvery(problems, part.id).length === 0;
  return { isPossible, isSure: isHeld && isLooked && bestSure(problems, judging).kind === 'found' };
};

const kept = new WeakMap<RouteProblem, Readonly<Record<Ways, RouteProblem>>>();

/** Which ways may be gone? All that were shown and are not known to destroy, or only those of which it was looked at. */
type Ways = 'all' | 'looked-at';

/** The same problem with only such ways; the very same one every time, since what is found on it is kept by it. */
const withWays = (problem: RouteProblem, ways: Ways): RouteProblem => {
  const usable = problem.actions.filter(isUsable);
  const isLookedAt = ({ kind, leaves }: RouteAction): boolean => kind !== 'release' || leaves !== undefined;
  const known = kept.get(problem) ?? {
    all: { ...problem, actions: usable },
    'looked-at': { ...problem, actions: usable.filter(isLookedAt) },
  };
  kept.set(problem, known);
  return known[ways];
};

const noRoute: MetricValue = { none: true, missing: [], evidence: [], note: 'nothing recorded frees the part' };

/**
 * How long does it take on average to free a part, damage or a dead end counted as an hour? Between the optimum where every
 * trial not made would come, and the optimum by what is shown: more reachability never makes the optimum worse. [s, to the ms]
 */
export const expectedTimeValue = (part: DevicePart, source: MetricSource): MetricValue => {
  const { isSure, isPossible } = reachOf(part, source);
  if (!isPossible) return noRoute;
  const { pessimistic, optimistic } = source.groundwork.problems;
  const timeIn = (problem: RouteProblem, ways: Ways) =>
    keptByProblem(problem, `rubric time ${ways} ${part.id}`, () =>
      expectedTime(withWays(problem, ways), `free/${part.id}`, { losses: LOSSES, limits: LIMITS, orderStates: 1 }),
    );
  const low = seconds(timeIn(optimistic, 'all').boundMilliseconds);
  const shown = isSure ? timeIn(pessimistic, 'looked-at') : undefined;
  const untimed = shown?.withoutTime ?? [];
  const high = shown && untimed.length === 0 ? seconds(shown.milliseconds) : null;
  return {
    range: { low, high },
    none: !isSure,
    missing: low === high ? [] : [...openTimes(part, untimed), ...openTrials(part)],
    evidence: [],
    note: BY_ODDS,
  };
};

const seconds = (milliseconds: number): string => exactText(rational(BigInt(Math.round(milliseconds)), 1000n));

const openTimes = (part: DevicePart, untimed: readonly string[]): MetricValue['missing'] =>
  untimed.length === 0
    ? []
    : [
        {
          address: `parts/${part.id}`,
          what: `how long ${untimed.length} of the actions on the way to ${part.name} take`,
          remedy: 'do them in a measured session, or record an estimate that says so',
        },
      ];

const openTrials = (part: DevicePart): MetricValue['missing'] => [
  {
    address: `parts/${part.id}/trials`,
    what: `how few things must be off before ${part.name} comes`,
    remedy: 'try it with less off, or say by sight what had to be off',
  },
];

/** What is the lowest chance of damage on the way to a part, each way tried once? Between the same two optima. [to a millionth] */
export const damageValue = (part: DevicePart, source: MetricSource): MetricValue => {
  const { isSure, isPossible } = reachOf(part, source);
  if (!isPossible) return noRoute;
  const { pessimistic, optimistic } = source.groundwork.problems;
  const chanceIn = (problem: RouteProblem, ways: Ways) =>
    keptByProblem(problem, `rubric damage ${ways} ${part.id}`, () =>
      leastDamage(withWays(problem, ways), `free/${part.id}`, { losses: LOSSES, limits: LIMITS, branches: 1 }),
    );
  const high = isSure ? millionths(chanceIn(pessimistic, 'looked-at').chanceOfDamage) : '1';
  const low = high === '0' ? high : millionths(chanceIn(optimistic, 'all').boundChance);
  return {
    range: { low, high },
    none: !isSure,
    missing: low === high ? [] : openTrials(part),
    evidence: [],
    note: 'by the odds as estimated, ways without odds taken to damage nothing; its width is that of the trials not made',
  };
};

const millionths = (chance: number): string => exactText(rational(BigInt(Math.round(chance * 1e6)), 1_000_000n));
