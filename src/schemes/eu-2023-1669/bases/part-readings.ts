import type { RouteProblem } from '#routes/problem/route-problem';
import type { CountingRules } from '#routes/steps/counting-rules';
import type { Interpretations, SwitchId } from '../interpretations.ts';
import { countingRulesFor } from '../readings.ts';
import { type RouteProblems, rulesThatMatter } from './best-search.ts';

/** Switches that say what of a log stands in the observed sequence. */
const OF_THE_LOG: readonly SwitchId[] = ['failed-attempts', 'session-order'];
/** Switches of the points and the pairing of a part, whichever the basis. */
const OF_A_PART: readonly SwitchId[] = [
  'remote-pairing',
  'previous-priority-part',
  'tool-in-several-classes',
  'holding-aids',
];

const rulesIn = ({ pessimistic, optimistic }: RouteProblems, readings: Interpretations): readonly CountingRules[] =>
  [pessimistic, optimistic].map((problem: RouteProblem) => rulesThatMatter(problem, countingRulesFor(readings)));

/**
 * Which readings can tell two judgements of one part apart on a basis? Equal keys, equal judgements: availability, rounding,
 * years, weights and instances decide above the part, and a counting rule that nothing in the routes touches decides nothing.
 */
export const readingsKey = (
  basis: 'declared' | 'observed' | 'best',
  at: { readonly readings: Interpretations; readonly problems: RouteProblems },
): string => {
  const { readings } = at;
  const of = (ids: readonly SwitchId[]): readonly string[] => ids.map((id) => readings[id]);
  // The problems are built when they are first asked for, and only best found asks.
  const rules = basis === 'best' ? rulesIn(at.problems, readings) : [countingRulesFor(readings)];
  return JSON.stringify([rules, of(OF_A_PART), basis === 'observed' ? of(OF_THE_LOG) : []]);
};
