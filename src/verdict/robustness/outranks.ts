import { compare, dividedBy, negated, plus, type Rational, rational, times } from '#quantity/rational';
import type { RubricFacts } from '../rubric/metric-value.ts';
import type { Rubric } from '../rubric/rubric-schema.ts';
import { type ModelGroup, modelOf } from '../rubric/score/model.ts';

/** A product whose score is a plain mean of the same criteria under every weight: what each earns, and its cap. */
export interface Frame {
  readonly criteria: ReadonlyMap<string, Earned>;
  readonly cap: Rational | undefined;
}

interface Earned {
  readonly weight: Rational;
  readonly least: Rational;
  readonly most: Rational;
}

/**
 * Is the score of a product a plain mean, so that pairs can be decided exactly? Its category is known, nothing hangs on a role it
 * may not have, no cap is open, and no open value is looked at by two criteria. Undefined where it is not.
 */
export const frameOf = (rubric: Rubric, facts: RubricFacts): Frame | undefined => {
  if (facts.category === null) return undefined;
  const groups = modelOf(rubric, facts, facts.category);
  return groups.every(isPlain) ? plainFrame(groups) : undefined;
};

const isPlain = ({ roles, metrics }: ModelGroup): boolean =>
  roles.length === 0 &&
  metrics.every(
    ({ candidates, criteria, caps }) =>
      (candidates.length === 1 || criteria.length < 2) && caps.every(({ holds }) => new Set(holds).size === 1),
  );

const plainFrame = (groups: readonly ModelGroup[]): Frame => {
  const metrics = groups.flatMap((group) => group.metrics);
  const earned = metrics.flatMap(({ criteria }) =>
    criteria.flatMap(({ id, weight, points }): readonly (readonly [string, Earned])[] => {
      const [least, most] = [[...points].sort(compare)[0], [...points].sort(compare).at(-1)];
      return least && most ? [[id, { weight, least, most }]] : [];
    }),
  );
  const heights = metrics.flatMap(({ caps }) => caps.flatMap(({ atMost, holds }) => (holds[0] ? [atMost] : [])));
  return { criteria: new Map(earned), cap: heights.sort(compare)[0] };
};

/**
 * Is there any choice of weights within (1 ± vary) of the rubric's, and any way the open facts turn out, under which one product
 * scores higher than the other (with `orEqual`: or the same)? Exact where both are plain means of the same criteria, `undefined` where they are not. The
 * difference of two such means has the sign of a sum that is straight in every weight, so each weight is taken at the end that
 * favours the first. Under a cap two such sums must be above 0 at once: by the duality of linear programming that is so if and
 * only if every mixture of the two can be, and the mixtures at which a coefficient changes its sign decide.
 */
export const canOutrank = (
  first: Frame,
  other: Frame,
  { vary, orEqual = false }: { readonly vary: Rational; readonly orEqual?: boolean },
): boolean | undefined => {
  const ids = [...first.criteria.keys()];
  if (ids.length !== other.criteria.size || ids.length === 0) return undefined;
  const pairs: { readonly a: Earned; readonly b: Earned }[] = [];
  for (const id of ids) {
    const [a, b] = [first.criteria.get(id), other.criteria.get(id)];
    if (!a || !b) return undefined;
    pairs.push({ a, b });
  }
  const over = (height: (pair: (typeof pairs)[number]) => readonly [Rational, Rational]): readonly Term[] =>
    pairs.map((pair) => {
      const [up, down] = height(pair);
      return { weight: pair.a.weight, worth: minus(up, down) };
    });
  const ahead = over(({ a, b }) => [a.most, b.least]);
  const [own, others] = [first.cap, other.cap];
  const reaches = ({ numerator }: Rational): boolean => numerator > 0n || (orEqual && numerator === 0n);
  const order = own && others ? compare(own, others) : own ? -1 : others ? 1 : undefined;
  if (own && order !== undefined && (order < 0 || (order === 0 && !orEqual)))
    return mixedWorst(
      ahead,
      over(({ b }) => [own, b.least]),
      vary,
    ).every(reaches);
  if (others) return [ahead, over(({ a }) => [a.most, others])].some((terms) => reaches(most(terms, vary)));
  return reaches(most(ahead, vary));
};

interface Term {
  readonly weight: Rational;
  readonly worth: Rational;
}

const ONE = rational(1n);
const minus = (a: Rational, b: Rational): Rational => plus(a, negated(b));

/** The largest value of a sum of weight × worth over all weights of the box. */
const most = (terms: readonly Term[], vary: Rational): Rational =>
  terms.reduce((sum, { weight, worth }) => {
    const factor = worth.numerator > 0n ? plus(ONE, vary) : minus(ONE, vary);
    return plus(sum, times(times(weight, factor), worth));
  }, rational(0n));

/** The largest values of the mixtures of two sums at which a coefficient changes its sign, and of the two themselves. */
const mixedWorst = (one: readonly Term[], two: readonly Term[], vary: Rational): readonly Rational[] => {
  const turns = one.flatMap(({ worth }, index) => {
    const other = two[index]?.worth ?? worth;
    const span = minus(worth, other);
    if (span.numerator === 0n) return [];
    const at = dividedBy(negated(other), span);
    return at.numerator > 0n && compare(at, ONE) < 0 ? [at] : [];
  });
  return [rational(0n), ONE, ...turns].map((share) =>
    most(
      one.map(({ weight, worth }, index) => ({
        weight,
        worth: plus(times(share, worth), times(minus(ONE, share), two[index]?.worth ?? worth)),
      })),
      vary,
    ),
  );
};
