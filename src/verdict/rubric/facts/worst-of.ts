import { compare } from '#quantity/rational';
import { exactValue } from '../exact-text.ts';
import type { MetricValue } from '../metric-value.ts';

/**
 * What is the worst of several parts of one role? The highest number, the worst word; nothing to measure is worse than both.
 * `order` lists the words from worst to best. Each part may take any of its possibilities, whatever the others take.
 */
export const worstOf = (values: readonly MetricValue[], order: readonly string[] = []): MetricValue => {
  const [first, ...rest] = values;
  if (!first) throw new RangeError('the worst of no parts is nothing');
  return rest.reduce((worst, value) => worseOfTwo(worst, value, order), first);
};

const worseOfTwo = (a: MetricValue, b: MetricValue, order: readonly string[]): MetricValue => {
  const range =
    a.range && b.range
      ? { low: higher(a.range.low, b.range.low, 'low'), high: higher(a.range.high, b.range.high, 'high') }
      : undefined;
  const words = a.words && b.words ? worseWords(a.words, b.words, order) : undefined;
  const note = [a.note, b.note].find((text) => text !== undefined);
  return {
    ...(range ? { range } : {}),
    ...(words ? { words } : {}),
    none: a.none || b.none,
    ...(a.whole || b.whole ? { whole: true } : {}),
    missing: [...a.missing, ...b.missing],
    evidence: [...new Set([...a.evidence, ...b.evidence])],
    ...(note === undefined ? {} : { note }),
  };
};

/** An open low end is below every number, an open high end above. */
const higher = (a: string | null, b: string | null, end: 'low' | 'high'): string | null => {
  if (a === null || b === null) return end === 'high' ? null : (a ?? b);
  return compare(exactValue(a), exactValue(b)) >= 0 ? a : b;
};

const worseWords = (a: readonly string[], b: readonly string[], order: readonly string[]): readonly string[] => {
  const worse = a.flatMap((one) => b.map((other) => Math.min(order.indexOf(one), order.indexOf(other))));
  return order.filter((_, index) => worse.includes(index));
};
