import { listed } from '#quantity/counts';
import type { MissingFact } from '#quantity/explained';
import { type ExactText, roundedText } from './exact-text.ts';

/**
 * What may a metric of one record still be? A number between two ends, one of some words, or nothing at all ("no route", "no
 * spare"). One possibility is settled; several are what open facts leave. Plain data, so that it can be kept and read again.
 */
export interface MetricValue {
  /** Both ends included; null where nothing bounds it. Absent where it is certainly no number. */
  readonly range?: { readonly low: ExactText | null; readonly high: ExactText | null };
  /** Words that are possible, from worst to best. */
  readonly words?: readonly string[];
  /** May there be nothing to measure? */
  readonly none: boolean;
  /** Only whole numbers are meant. */
  readonly whole?: true;
  readonly missing: readonly MissingFact[];
  readonly evidence: readonly string[];
  /** A remark on what the value rests on, where it needs one. */
  readonly note?: string;
}

/** Is something so? Open where nobody has established it. */
export type Answer = 'yes' | 'no' | 'open';

/** Has the product a part of a role? */
export interface Presence {
  readonly answer: Answer;
  readonly missing: readonly MissingFact[];
}

/**
 * Everything a rubric is scored from: the category (null where it is not known), which roles the product has, and the value of
 * each metric by its key. Made once a record; scoring needs nothing else.
 */
export interface RubricFacts {
  readonly category: string | null;
  readonly roles: Readonly<Record<string, Presence>>;
  readonly metrics: Readonly<Record<string, MetricValue>>;
}

/** Does only one possibility remain? */
export const isSettled = ({ range, words, none }: MetricValue): boolean => {
  const numbers = range === undefined ? 0 : range.low !== null && range.low === range.high ? 1 : 2;
  return numbers + (words?.length ?? 0) + (none ? 1 : 0) === 1;
};

/** How does a value read? `6 steps`, `4 to 6 steps or no route`, `reusable or resupplied`. */
export const valueText = (
  value: MetricValue,
  { unit, none }: { readonly unit?: string | undefined; readonly none?: string | undefined },
): string => {
  const parts = [
    ...(value.range === undefined ? [] : [rangeText(value.range, unit)]),
    ...(value.words ?? []).map((word) => word.replaceAll('-', ' ')),
    ...(value.none ? [none ?? 'none'] : []),
  ];
  return listed(parts, 'or');
};

const rangeText = ({ low, high }: NonNullable<MetricValue['range']>, unit: string | undefined): string => {
  const units = unit === undefined ? '' : ` ${unit}`;
  const behind =
    (low ?? high) === '1' && (high === null || high === '1') && COUNTED.has(units) ? units.slice(0, -1) : units;
  if (low === null && high === null) return `any number${unit === undefined ? '' : ` of ${unit}`}`;
  if (low === null) return `${numberText(high ?? '')}${behind} or less`;
  if (high === null) return `${numberText(low)}${behind} or more`;
  if (low !== high) return `${numberText(low)} to ${numberText(high)}${behind}`;
  return `${numberText(low)}${behind}`;
};

/** A fraction that no decimal ends is followed by one that is near. */
const numberText = (text: ExactText): string => (text.includes('/') ? `${text} (≈ ${roundedText(text, 3)})` : text);

/** Units that are things counted: one of them goes without the s. */
const COUNTED: ReadonlySet<string> = new Set([' steps', ' actions', ' items', ' years']);
