import type { Explained, FigureValue, RuleBook } from '#quantity/explained';
import { showScaled } from '#quantity/explained';
import { decimal, inputValue, isNotScorable, notScorable, OPEN, word } from './figure.ts';

/** The three kinds of updates that must all be guaranteed (Annex IV point 5, SSU). */
export const UPDATE_KINDS = ['security', 'corrective', 'functionality'] as const;

/** One row of the table of SSU: years guaranteed, whether more years count too, and the points. */
export interface UpdateRow {
  readonly years: number;
  readonly orMore: boolean;
  readonly points: number;
}

/**
 * How many points do guaranteed years of updates earn? Counted from the end of placing on the market.
 * Source: Regulation (EU) 2023/1669, Annex IV point 5, table of SSU (read).
 */
export const UPDATE_TABLE: readonly UpdateRow[] = [
  { years: 7, orMore: true, points: 5 },
  { years: 6, orMore: false, points: 3 },
  { years: 5, orMore: false, points: 1 },
];

const LEAST_YEARS = 50_000;

const showYears = (scaled: number): string => showScaled(scaled, 4).replace(/\.?0+$/, '');

/** The least of the three kinds; part-years fall away under the reading `down`. Years in ten-thousandths. */
const guaranteedYears = (node: Explained): FigureValue => {
  const values = UPDATE_KINDS.map((kind) => inputValue(node, kind));
  const below = values.find(isNotScorable);
  if (below) return below;
  const known = values.flatMap((value) => (value.kind === 'decimal' ? [value.scaled] : []));
  const least = Math.min(...known);
  if (known.length < values.length)
    return least < LEAST_YEARS
      ? notScorable(`${showYears(least)} years are guaranteed at most; the table ends at 5`)
      : OPEN;
  const reading = inputValue(node, 'part-years');
  const down = reading.kind === 'word' && reading.value === 'down';
  return decimal(down ? Math.floor(least / 10_000) * 10_000 : least, 4);
};

/**
 * Which years were rounded, to what, and by which reading? Nothing where the years are whole, not all known or taken as stated.
 * That part-years fall away is our reading: the table of SSU in Annex IV point 5 has rows for whole years only and says nothing.
 */
export const roundingWords = (node: Explained): string | undefined => {
  const stated = UPDATE_KINDS.map((kind) => inputValue(node, kind));
  const scaled = stated.flatMap((value) => (value.kind === 'decimal' ? [value.scaled] : []));
  const least = Math.min(...scaled);
  if (node.value.kind !== 'decimal' || scaled.length < stated.length || node.value.scaled === least) return undefined;
  return `${showYears(least)} years, rounded down to ${showYears(node.value.scaled)} (reading part-years: down)`;
};

const updateScore = (node: Explained): FigureValue => {
  const yearsNode = node.children.find((child) => child.id === 'years');
  const years = yearsNode?.value ?? OPEN;
  if (years.kind !== 'decimal') return years;
  const row = UPDATE_TABLE.find(({ years: asked, orMore }) =>
    orMore ? years.scaled >= asked * 10_000 : years.scaled === asked * 10_000,
  );
  if (row) return decimal(row.points * 100, 2);
  const rounded = yearsNode && roundingWords(yearsNode);
  if (rounded) return notScorable(`${rounded}; the table ends at 5`);
  return notScorable(
    years.scaled < LEAST_YEARS
      ? `${showYears(years.scaled)} years are guaranteed; the table ends at 5`
      : `${showYears(years.scaled)} years, taken as stated, match no row of the table`,
  );
};

/** The next row asks for one kind's years: which kinds fall short, from the years node's target. */
const nextYears = (node: Explained): FigureValue => {
  const target = inputValue(node, 'target');
  if (target.kind !== 'count') return OPEN;
  const short = UPDATE_KINDS.flatMap((kind) => {
    const value = inputValue(node, kind);
    if (value.kind === 'decimal')
      return value.scaled >= target.value * 10_000 ? [] : [`${kind} ${showYears(value.scaled)}`];
    return [`${kind} ${isNotScorable(value) ? 'none' : 'open'}`];
  });
  return word(`${target.value} years are not given for: ${short.join('; ')}`);
};

/** How is the score of software updates recomputed? */
export const updateRules: RuleBook = {
  'eu/SSU': updateScore,
  'eu/SSU-years': guaranteedYears,
  'eu/SSU-next': nextYears,
};
