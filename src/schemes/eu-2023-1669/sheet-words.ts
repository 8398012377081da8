import { showScaled } from '#quantity/explained';
import { roleName } from '../role-name.ts';
import { FASTENER_POINTS, stepsEarning, TOOL_POINTS } from './bands.ts';
import type { PriorityRole } from './input.ts';
import type { ColumnConsequences, SheetConsequences } from './public-sheet.ts';
import { PART_SCORES, type PartScore } from './role-score.ts';
import { SPARE_TABLE, spareRowWords } from './spare-ladder.ts';
import { rolesOf } from './weights.ts';

/** Which numbers of steps earn one of these points, in words? Points next to each other are joined to one range. */
export const stepsInWords = (points: readonly number[]): string => {
  const ranges = [...points].sort((a, b) => b - a).flatMap((each) => stepsEarning(each) ?? []);
  const joined: { least: number; greatest: number }[] = [];
  for (const range of ranges) {
    const last = joined.at(-1);
    if (last && last.greatest + 1 === range.least) last.greatest = range.greatest;
    else joined.push({ ...range });
  }
  return joined
    .map(({ least, greatest }) => {
      if (greatest === Number.POSITIVE_INFINITY) return least === 0 ? 'any number of steps' : `${least} steps or more`;
      return least === 0 ? `${greatest} steps or fewer` : `${least} to ${greatest} steps`;
    })
    .join(' or ');
};

const classesInWords = (table: Readonly<Record<string, number>>, points: readonly number[]): string =>
  Object.entries(table)
    .filter(([, value]) => points.includes(value))
    .map(([name]) => name)
    .join(' or ');

/** What do these points on one score mean for a part, in words? */
const pointsInWords = (score: PartScore, points: readonly number[]): string => {
  if (score === 'SDD') return stepsInWords(points);
  return score === 'SF'
    ? `worst fastener ${classesInWords(FASTENER_POINTS, points)}`
    : `worst tool ${classesInWords(TOOL_POINTS, points)}`;
};

const ALL_POINTS: Readonly<Record<PartScore, number>> = { SDD: 5, SF: 3, ST: 5 };

const roleStatement = (column: ColumnConsequences, score: PartScore, role: PriorityRole): string | undefined => {
  const { values, points } = column.scores[score];
  const possible = points[role] ?? [];
  if (possible.length === 0 || possible.length === ALL_POINTS[score]) return undefined;
  const figure = values.length === 1 ? `${score} ${showScaled(values[0] ?? 0, 2)}` : `the sheet through ${score}`;
  return `${figure} forces the ${roleName(role)} to ${possible.join(' or ')} points (${pointsInWords(score, possible)})`;
};

const columnStatements = (column: ColumnConsequences, several: boolean): readonly string[] => {
  const prefix = several ? `as a ${column.column} product: ` : '';
  if (!column.feasible) return [`${prefix}no points of any parts give these figures`];
  return PART_SCORES.flatMap((score) =>
    rolesOf(column.column).flatMap((role) => {
      const statement = roleStatement(column, score, role);
      return statement ? [prefix + statement] : [];
    }),
  );
};

const SSU_WORDS: Readonly<Record<number, string>> = {
  5: 'seven years of updates or more',
  3: 'six years of updates',
  1: 'five years of updates',
};

const SRI_WORDS: Readonly<Record<number, string>> = {
  5: 'everything free to professionals, and all but the board diagrams public and free',
  3: 'everything free to professionals, not all of it public and free',
  1: 'everything to professionals, some of it at a reasonable fee',
};

/** What does a rung of a ladder mean, in words? */
const rungInWords = (score: 'SSP' | 'SSU' | 'SRI', points: number): string => {
  if (score === 'SSU') return SSU_WORDS[points] ?? '';
  if (score === 'SRI') return SRI_WORDS[points] ?? '';
  const row = SPARE_TABLE.find((each) => each.points === points);
  return row ? spareRowWords(row) : '';
};

const ladderStatements = ({ columns }: SheetConsequences): readonly string[] =>
  (['SSP', 'SSU', 'SRI'] as const).flatMap((score) => {
    const rungs = [...new Set(columns.flatMap((column) => column.ladders[score]))];
    const [only] = rungs;
    return rungs.length === 1 && only !== undefined ? [`${score} ${only}.00 says: ${rungInWords(score, only)}`] : [];
  });

const ownStatements = ({ sheet, computedR, roundings, classes }: SheetConsequences): readonly string[] => {
  const found: string[] = [];
  if (computedR !== undefined && sheet.R !== undefined) {
    const figures = `the six scores give R ${showScaled(computedR, 4)}`;
    const printed = showScaled(sheet.R, 2);
    found.push(
      roundings.length > 0
        ? `${figures}; printed ${printed} by rounding ${roundings.join(', ')}`
        : `${figures}, which no way of rounding prints as ${printed}`,
    );
  }
  if (sheet.class !== undefined && classes.length > 0 && !classes.includes(sheet.class))
    found.push(`the class ${sheet.class} does not follow from the figures, which give ${classes.join(' or ')}`);
  return found;
};

/** What does a public sheet force, in sentences? Contradictions in itself first, then parts, then ladders. */
export const sheetStatements = (consequences: SheetConsequences): readonly string[] => {
  const feasible = consequences.columns.filter((column) => column.feasible);
  const shown = feasible.length > 0 ? feasible : consequences.columns;
  return [
    ...ownStatements(consequences),
    ...shown.flatMap((column) => columnStatements(column, consequences.columns.length > 1)),
    ...ladderStatements(consequences),
  ];
};
