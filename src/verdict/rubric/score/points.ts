import { compare, dividedBy, negated, plus, type Rational, rational, times } from '#quantity/rational';
import { exactValue } from '../exact-text.ts';
import type { Condition, Scale } from '../rubric-schema.ts';

/**
 * One possibility of a metric: a number, the numbers just above one, less or more than any number, a word, or nothing to
 * measure.
 */
export type Candidate =
  | { readonly kind: 'at' | 'above'; readonly value: Rational }
  | { readonly kind: 'least' | 'most' | 'none' }
  | { readonly kind: 'word'; readonly word: string };

const ZERO = rational(0n);

/** How many points does a scale give? Exact, 0 to 100. */
export const pointsAt = (scale: Scale, at: Candidate): Rational => {
  if (at.kind === 'none') return exactValue(scale.none ?? 0);
  if (at.kind === 'word') return exactValue(scale.words?.[at.word] ?? 0);
  if (scale.table) return tablePoints(scale.table, at);
  return scale.line ? linePoints(scale.line, at) : ZERO;
};

type Numeric = Exclude<Candidate, { readonly kind: 'none' | 'word' }>;

const isBeyond = (at: Numeric, bound: string | number): boolean => {
  if (at.kind === 'least') return false;
  if (at.kind === 'most') return true;
  if (!('value' in at)) return false;
  const order = compare(at.value, exactValue(bound));
  return order > 0 || (order === 0 && at.kind === 'above');
};

/** The first row whose bound is not passed; the last holds for everything beyond. */
const tablePoints = (table: NonNullable<Scale['table']>, at: Numeric): Rational => {
  const row = table.find(({ upTo }) => upTo === undefined || !isBeyond(at, upTo));
  return exactValue(row?.points ?? 0);
};

const linePoints = (line: NonNullable<Scale['line']>, at: Numeric): Rational => {
  const first = exactValue(line[0]?.points ?? 0);
  const last = exactValue(line.at(-1)?.points ?? 0);
  if (at.kind === 'least') return first;
  if (at.kind === 'most' || !('value' in at)) return last;
  const next = line.findIndex((point) => compare(exactValue(point.at), at.value) >= 0);
  const [from, to] = [line[next - 1], line[next]];
  if (to === undefined) return last;
  if (from === undefined) return first;
  const [x0, x1] = [exactValue(from.at), exactValue(to.at)];
  const [y0, y1] = [exactValue(from.points), exactValue(to.points)];
  const share = dividedBy(plus(at.value, negated(x0)), plus(x1, negated(x0)));
  return plus(y0, times(share, plus(y1, negated(y0))));
};

/** Does a condition hold of a possibility? A number is never a word, and nothing to measure is neither above nor below. */
export const conditionHolds = (when: Condition, at: Candidate): boolean => {
  if (when.is) return when.is.includes(at.kind === 'word' ? at.word : at.kind);
  if (at.kind === 'none' || at.kind === 'word') return false;
  if (when.above !== undefined) return isBeyond(at, when.above);
  return when.below !== undefined && isUnder(at, when.below);
};

/** Just above a number is under a bound only where the number is. */
const isUnder = (at: Numeric, bound: string | number): boolean => {
  if (at.kind === 'least') return true;
  return 'value' in at && compare(at.value, exactValue(bound)) < 0;
};

/** At which numbers does a scale or condition turn? */
export const turningPoints = (scale: Scale): readonly Rational[] =>
  [
    ...(scale.table ?? []).flatMap(({ upTo }) => (upTo === undefined ? [] : [upTo])),
    ...(scale.line ?? []).map(({ at }) => at),
  ].map(exactValue);

/** At which numbers does a condition turn? */
export const turningPointsOf = ({ above, below }: Condition): readonly Rational[] =>
  [above, below].flatMap((bound) => (bound === undefined ? [] : [exactValue(bound)]));
