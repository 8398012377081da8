import { compare, negated, plus, type Rational, rational, times } from '#quantity/rational';
import { type Asking, bestChoice, type Outcome, outcomeOf } from './choice.ts';
import type { ModelCap, ModelGroup } from './model.ts';

/** The lowest and the highest score that open facts allow, each with the choice that gives it. */
export interface Ends {
  /** Both undefined where no criterion applies, whatever the open facts are. */
  readonly low?: Outcome;
  readonly high?: Outcome;
  /** May it turn out that no criterion applies, so that there is no score? */
  readonly mayBeNone: boolean;
}

/**
 * Between which scores does a model lie? Exact. The mean of points is a ratio, since criteria may drop out with their weight:
 * it is driven to its end by comparing sums of weight × (points − mean so far), until none is better (Dinkelbach, On nonlinear
 * fractional programming, Management Science 13(7), 1967, 492-498: the step; the choices here are finite, so it ends). Caps:
 * the highest is sought under each set of lower caps that do not hold, the lowest also where each cap holds.
 */
export const endsOf = (groups: readonly ModelGroup[]): Ends => {
  const caps = groups.flatMap(({ metrics }) => metrics.flatMap((metric) => metric.caps));
  const low = lowest(groups, caps);
  const high = highest(groups, caps);
  return { ...(low ? { low } : {}), ...(high ? { high } : {}), mayBeNone: mayBeNone(groups) };
};

const lowest = (groups: readonly ModelGroup[], caps: readonly ModelCap[]): Outcome | undefined => {
  let found = meanEnd(groups, 'least', () => 'free');
  for (const cap of caps) {
    if (found && compare(found.capped, cap.atMost) <= 0) continue;
    const under = meanEnd(groups, 'least', ({ id }) => (id === cap.id ? 'must' : 'free'));
    if (under && (!found || compare(under.capped, found.capped) < 0)) found = under;
  }
  return found;
};

/** From no cap at all down to the lowest: with all caps below a height off, the score is the mean or that height. */
const highest = (groups: readonly ModelGroup[], caps: readonly ModelCap[]): Outcome | undefined => {
  const heights = [...caps].map(({ atMost }) => atMost).sort((a, b) => compare(b, a));
  let found: Outcome | undefined;
  for (const height of [undefined, ...heights]) {
    if (found && height && compare(found.capped, height) >= 0) break;
    const outcome = meanEnd(groups, 'most', (cap) => (isUnder(cap, height) ? 'must-not' : 'free'));
    if (outcome && (!found || compare(outcome.capped, found.capped) > 0)) found = outcome;
  }
  return found;
};

const isUnder = ({ atMost }: ModelCap, height: Rational | undefined): boolean =>
  height === undefined || compare(atMost, height) < 0;

/** The mean at one end, under demands on caps; undefined where the demands cannot be met or nothing applies. */
const meanEnd = (
  groups: readonly ModelGroup[],
  goal: Asking['goal'],
  demand: Asking['demand'],
): Outcome | undefined => {
  // Outside the scale: any choice under which a criterion applies is better than none.
  let mean = goal === 'most' ? rational(-1n) : rational(101n);
  let found: Outcome | undefined;
  for (;;) {
    const past = negated(mean);
    const choice = bestChoice(groups, {
      goal,
      demand,
      worth: ({ weight, points }, at) => times(weight, plus(points[at] ?? rational(0n), past)),
    });
    const next = choice && outcomeOf(groups, choice);
    if (!next) return found;
    const order = compare(next.mean, mean);
    if (goal === 'most' ? order <= 0 : order >= 0) return found;
    mean = next.mean;
    found = next;
  }
};

const mayBeNone = (groups: readonly ModelGroup[]): boolean => {
  const choice = bestChoice(groups, { goal: 'least', demand: () => 'free', worth: ({ weight }) => weight });
  return choice === undefined || outcomeOf(groups, choice) === undefined;
};
