import { compare, type Rational, rational } from '#quantity/rational';
import { exactValue } from '../exact-text.ts';
import type { MetricValue } from '../metric-value.ts';
import type { Candidate } from './points.ts';

/**
 * Which possibilities of a metric are worth looking at? Its ends and, on both sides, every place where one of its scales or
 * conditions turns: between two of these all scales are straight and all conditions stay, so that no score lies further out.
 * In rising order, then words as the metric lists them, then nothing.
 */
export const candidatesOf = (value: MetricValue, turns: readonly Rational[]): readonly Candidate[] => [
  ...(value.range ? numbersOf(value.range, turns, value.whole === true) : []),
  ...(value.words ?? []).map((word): Candidate => ({ kind: 'word', word })),
  ...(value.none ? [{ kind: 'none' } as const] : []),
];

const numbersOf = (
  range: NonNullable<MetricValue['range']>,
  turns: readonly Rational[],
  whole: boolean,
): readonly Candidate[] => {
  const low = range.low === null ? undefined : exactValue(range.low);
  const high = range.high === null ? undefined : exactValue(range.high);
  const isWithin = (value: Rational): boolean =>
    (low === undefined || compare(value, low) >= 0) && (high === undefined || compare(value, high) <= 0);
  const at = distinct([low, high, ...turns.flatMap((turn) => (whole ? [floorOf(turn), nextOf(turn)] : [turn]))])
    .filter(isWithin)
    .flatMap((value): readonly Candidate[] => {
      const above = !whole && (high === undefined || compare(value, high) < 0) && isTurn(value, turns);
      return [{ kind: 'at', value }, ...(above ? [{ kind: 'above' as const, value }] : [])];
    });
  return [
    ...(low === undefined ? [{ kind: 'least' } as const] : []),
    ...at,
    ...(high === undefined ? [{ kind: 'most' } as const] : []),
  ];
};

const isTurn = (value: Rational, turns: readonly Rational[]): boolean =>
  turns.some((turn) => compare(turn, value) === 0);

const floorOf = ({ numerator, denominator }: Rational): Rational => {
  const cut = numerator / denominator;
  return rational(numerator < 0n && cut * denominator !== numerator ? cut - 1n : cut);
};

const nextOf = (value: Rational): Rational => rational(floorOf(value).numerator + 1n);

const distinct = (values: readonly (Rational | undefined)[]): readonly Rational[] => {
  const known = values.filter((value) => value !== undefined).sort(compare);
  return known.filter((value, index) => index === 0 || compare(value, known[index - 1] ?? value) !== 0);
};
