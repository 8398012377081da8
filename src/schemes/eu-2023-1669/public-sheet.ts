import { FASTENER_POINTS, STEP_BANDS, TOOL_POINTS } from './bands.ts';
import { CLASS_TABLE, classOf, type IndexClass, ROUNDING_RULES, type RoundingRule, roundedR } from './classes.ts';
import { type Addend, feasibleValues, reachableSums } from './feasible-sums.ts';
import { INFORMATION_TABLE } from './information-ladder.ts';
import type { PriorityRole } from './input.ts';
import { PART_SCORES, type PartScore } from './role-score.ts';
import { SPARE_TABLE } from './spare-ladder.ts';
import { UPDATE_TABLE } from './update-ladder-rules.ts';
import { PART_WEIGHTS, rolesOf, SCORE_WEIGHTS, SCORES, type Score, type WeightColumn } from './weights.ts';

/** What does a public product sheet declare? Figures in hundredths as printed; what is left out is not known. */
export interface PublicSheet {
  readonly class?: IndexClass;
  readonly R?: number;
  readonly scores: Readonly<Partial<Record<Score, number>>>;
}

/** Which points can each priority part have on one score, and which values can the score itself have [hundredths]? */
export interface ForcedScore {
  readonly values: readonly number[];
  readonly points: Readonly<Partial<Record<PriorityRole, readonly number[]>>>;
}

/** What does the sheet force in one weight column? Not feasible: no points of any parts give these figures. */
export interface ColumnConsequences {
  readonly column: WeightColumn;
  readonly feasible: boolean;
  readonly scores: Readonly<Record<PartScore, ForcedScore>>;
  /** Points possible on the three ladders. */
  readonly ladders: Readonly<Record<'SSP' | 'SSU' | 'SRI', readonly number[]>>;
}

/** What does a public sheet force, and does it agree with itself? */
export interface SheetConsequences {
  readonly sheet: PublicSheet;
  readonly columns: readonly ColumnConsequences[];
  /** R from the six declared scores in ten-thousandths, where all are declared. */
  readonly computedR: number | undefined;
  /** Ways of rounding that bring the computed R to the declared one; empty with both known is a contradiction. */
  readonly roundings: readonly RoundingRule[];
  /** The classes that the R behind the sheet can have earned. */
  readonly classes: readonly IndexClass[];
}

/** Which points does each table allow? Annex IV point 5. */
const ALLOWED_POINTS: Readonly<Record<Score, readonly number[]>> = {
  SDD: STEP_BANDS.map((band) => band.points).sort(),
  SF: Object.values(FASTENER_POINTS).sort(),
  ST: Object.values(TOOL_POINTS).sort(),
  SSP: SPARE_TABLE.map((row) => row.points).sort(),
  SSU: UPDATE_TABLE.map((row) => row.points).sort(),
  SRI: INFORMATION_TABLE.map((row) => row.points).sort(),
};

/** Which parts make up a score in one column, with weights in hundredths and the points the table allows? */
export const partAddends = (column: WeightColumn, score: PartScore): readonly Addend[] =>
  rolesOf(column).map((role) => ({
    id: role,
    weight: PART_WEIGHTS[column][role] ?? 0,
    values: ALLOWED_POINTS[score],
  }));

const isPartScore = (score: Score): score is PartScore => (PART_SCORES as readonly Score[]).includes(score);

const possibleScores = (column: WeightColumn, score: Score): readonly number[] =>
  isPartScore(score) ? reachableSums(partAddends(column, score)) : ALLOWED_POINTS[score].map((points) => points * 100);

const scoreAddend = (sheet: PublicSheet, column: WeightColumn, score: Score): Addend => {
  const declared = sheet.scores[score];
  const possible = possibleScores(column, score);
  const values = declared === undefined ? possible : possible.filter((value) => value === declared);
  return { id: score, weight: SCORE_WEIGHTS[score], values };
};

/** Every R in ten-thousandths that some way of rounding prints as the declared one. */
const printedAs = (hundredths: number): ReadonlySet<number> => {
  const near = Array.from({ length: 200 }, (_, index) => hundredths * 100 - 100 + index);
  return new Set(near.filter((r) => r >= 0 && ROUNDING_RULES.some((rule) => roundedR(r, rule) === hundredths)));
};

const scoresPossible = (sheet: PublicSheet, column: WeightColumn): Readonly<Record<string, readonly number[]>> => {
  const addends = SCORES.map((score) => scoreAddend(sheet, column, score));
  if (sheet.R !== undefined) return feasibleValues(addends, printedAs(sheet.R));
  const feasible = addends.every((addend) => addend.values.length > 0);
  return Object.fromEntries(addends.map(({ id, values }) => [id, feasible ? values : []]));
};

const columnConsequences = (sheet: PublicSheet, column: WeightColumn): ColumnConsequences => {
  const possible = scoresPossible(sheet, column);
  const forced = (score: PartScore): ForcedScore => {
    const values = possible[score] ?? [];
    return { values, points: feasibleValues(partAddends(column, score), new Set(values)) };
  };
  const rungs = (score: Score) => (possible[score] ?? []).map((value) => value / 100);
  return {
    column,
    feasible: SCORES.every((score) => (possible[score]?.length ?? 0) > 0),
    scores: { SDD: forced('SDD'), SF: forced('SF'), ST: forced('ST') },
    ladders: { SSP: rungs('SSP'), SSU: rungs('SSU'), SRI: rungs('SRI') },
  };
};

const computeR = (sheet: PublicSheet): number | undefined => {
  const values = SCORES.map((score) => sheet.scores[score]);
  if (values.some((value) => value === undefined)) return undefined;
  return SCORES.reduce((sum, score) => sum + SCORE_WEIGHTS[score] * (sheet.scores[score] ?? 0), 0);
};

const classesFrom = (sheet: PublicSheet, r: number | undefined): readonly IndexClass[] => {
  const printed = sheet.R === undefined ? [] : [...printedAs(sheet.R), sheet.R * 100];
  const possible = r === undefined ? printed : [r, roundedR(r) * 100];
  return CLASS_TABLE.map((row) => row.letter).filter((letter) => possible.some((value) => classOf(value) === letter));
};

/**
 * What do the public figures of a product force? R and its six scores at two decimals, any of which may be missing: for
 * each weight column still possible, the points each priority part can have, exact by dynamic programming over integer
 * sums; the rungs of the ladders; the ways of rounding R and the classes that fit. `foldable` undefined: both columns.
 * Source: Regulation (EU) 2023/1669, Annex V Table 8 rows 20 to 21f and Annex IV point 5.
 */
export const sheetConsequences = (sheet: PublicSheet, foldable: boolean | undefined): SheetConsequences => {
  const columns: readonly WeightColumn[] =
    foldable === undefined ? ['non-foldable', 'foldable'] : [foldable ? 'foldable' : 'non-foldable'];
  const computedR = computeR(sheet);
  const fits = (rule: RoundingRule) => computedR !== undefined && roundedR(computedR, rule) === sheet.R;
  return {
    sheet,
    columns: columns.map((column) => columnConsequences(sheet, column)),
    computedR,
    roundings: ROUNDING_RULES.filter(fits),
    classes: classesFrom(sheet, computedR),
  };
};

/** Which hundredths does a published figure such as `3,34`, `3.3` or `3` print? `undefined` for any other text. */
export const publishedHundredths = (text: string): number | undefined => {
  const match = /^([1-5])(?:[.,](\d{1,2}))?(?:\/5)?$/.exec(text.trim());
  return match ? Number(match[1]) * 100 + Number((match[2] ?? '').padEnd(2, '0')) : undefined;
};
