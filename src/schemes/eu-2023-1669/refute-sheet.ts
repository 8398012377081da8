import { counted } from '#quantity/counts';
import { showScaled } from '#quantity/explained';
import { roleName } from '../role-name.ts';
import { FASTENER_POINTS, stepPoints, TOOL_POINTS } from './bands.ts';
import { type Addend, feasibleValues, reachableSums } from './feasible-sums.ts';
import type { FastenerClass, PriorityRole, ToolClass } from './input.ts';
import { type ColumnConsequences, partAddends, type SheetConsequences } from './public-sheet.ts';
import { PART_SCORES, type PartScore } from './role-score.ts';

/** What did the bench find for one part? Steps with pairing included; any may be left out. */
export interface BenchCount {
  readonly role: PriorityRole;
  readonly steps?: number;
  readonly fastener?: FastenerClass;
  readonly tool?: ToolClass;
}

/** One thing the bench found that the declared figures cannot be, with the arithmetic that shows it. */
export interface Refutation {
  readonly score: PartScore;
  readonly roles: readonly PriorityRole[];
  /** `worse`: the bench found fewer points than the figures need; `better`: more; `between`: a number they skip; `jointly`: only together. */
  readonly kind: 'worse' | 'better' | 'between' | 'jointly';
  readonly arithmetic: string;
}

const pointsFound = (count: BenchCount, score: PartScore): number | undefined => {
  if (score === 'SDD') return count.steps === undefined ? undefined : stepPoints(count.steps);
  const found = score === 'SF' ? count.fastener : count.tool;
  if (found === undefined || found === 'below-scale') return undefined;
  const table: Readonly<Record<string, number>> = score === 'SF' ? FASTENER_POINTS : TOOL_POINTS;
  return table[found];
};

const foundInWords = (count: BenchCount, score: PartScore): string => {
  if (score === 'SDD') return `${roleName(count.role)} in ${counted(count.steps ?? 0, 'step')}`;
  return score === 'SF'
    ? `${roleName(count.role)} with worst fastener ${count.fastener}`
    : `${roleName(count.role)} with worst tool ${count.tool}`;
};

const show = (hundredths: number): string => showScaled(hundredths, 2);

const span = (values: readonly number[]): string => {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return low === high ? show(low) : `${show(low)} to ${show(high)}`;
};

/** The sum with the found points and the others at one end, against the score; or the nearest sums around a gap. */
const arithmeticOf = (fixed: Addend, others: readonly Addend[], targets: readonly number[]): string => {
  const [points = 0] = fixed.values;
  const own = fixed.weight * points;
  const rest = others.reduce((sum, addend) => sum + addend.weight, 0);
  const head = `${show(fixed.weight)} × ${points}`;
  const most = own + rest * 5;
  const least = own + rest;
  if (most < Math.min(...targets)) return `${head} + ${show(rest)} × 5 = ${show(most)} < ${span(targets)}`;
  if (least > Math.max(...targets)) return `${head} + ${show(rest)} × 1 = ${show(least)} > ${span(targets)}`;
  const sums = reachableSums(others).map((sum) => sum + own);
  const below = sums.findLast((sum) => sum < Math.max(...targets));
  const above = sums.find((sum) => sum > Math.min(...targets));
  const near = [below, above].flatMap((sum) => (sum === undefined ? [] : [show(sum)])).join(' and ');
  return `with ${head} no points of the other parts give ${span(targets)}; the nearest are ${near}`;
};

const refuteOne = (column: ColumnConsequences, score: PartScore, count: BenchCount): Refutation | undefined => {
  const points = pointsFound(count, score);
  const { values, points: possible } = column.scores[score];
  const allowed = possible[count.role];
  if (points === undefined || !allowed || allowed.includes(points)) return undefined;
  const addends = partAddends(column.column, score);
  const own = addends.find((addend) => addend.id === count.role);
  if (!own) return undefined;
  const others = addends.filter((addend) => addend !== own);
  const sum = arithmeticOf({ ...own, values: [points] }, others, values);
  return {
    score,
    roles: [count.role],
    kind: points < Math.min(...allowed) ? 'worse' : points > Math.max(...allowed) ? 'better' : 'between',
    arithmetic: `${foundInWords(count, score)} is ${points} points: ${sum}`,
  };
};

/** Are the counts impossible together though each is possible alone? */
const refuteJointly = (
  column: ColumnConsequences,
  score: PartScore,
  counts: readonly BenchCount[],
): Refutation | undefined => {
  const found = counts.flatMap((count) => {
    const points = pointsFound(count, score);
    return points === undefined || !column.scores[score].points[count.role] ? [] : [{ count, points }];
  });
  const addends = partAddends(column.column, score).map((addend) => {
    const own = found.find(({ count }) => count.role === addend.id);
    return own ? { ...addend, values: [own.points] } : addend;
  });
  const { values } = column.scores[score];
  const feasible = feasibleValues(addends, new Set(values));
  if (found.length < 2 || Object.values(feasible).some((points) => points.length > 0)) return undefined;
  const sums = reachableSums(addends);
  return {
    score,
    roles: found.map(({ count }) => count.role),
    kind: 'jointly',
    arithmetic: `${found.map(({ count, points }) => `${foundInWords(count, score)} (${points})`).join(', ')}: together ${score} lies in ${span(sums)} and cannot be ${span(values)}`,
  };
};

/** One count a role: the one with the lowest points on this score (Annex IV point 5, parts present more than once). */
const lowestOf = (counts: readonly BenchCount[], score: PartScore): readonly BenchCount[] => {
  const lowest = new Map<PriorityRole, { count: BenchCount; points: number }>();
  for (const count of counts) {
    const points = pointsFound(count, score);
    const sofar = lowest.get(count.role);
    if (points !== undefined && (sofar === undefined || points < sofar.points))
      lowest.set(count.role, { count, points });
  }
  return [...lowest.values()].map(({ count }) => count);
};

const refuteColumn = (column: ColumnConsequences, counts: readonly BenchCount[]): readonly Refutation[] =>
  PART_SCORES.flatMap((score) => {
    const lowest = lowestOf(counts, score);
    const alone = lowest.flatMap((count) => refuteOne(column, score, count) ?? []);
    if (alone.length > 0) return alone;
    return refuteJointly(column, score, lowest) ?? [];
  });

/**
 * Which bench counts can the public figures not be true with? One count can be enough: a battery found in 9 steps (3
 * points) against SDD 4.45. Where both weight columns are possible, the figures are refuted only if each is; then the
 * refutations of both are given. A part counted more than once stands with its lowest points (Annex IV point 5). Nothing
 * is refuted where the sheet already contradicts itself.
 */
export const refuteSheet = (consequences: SheetConsequences, counts: readonly BenchCount[]): readonly Refutation[] => {
  const feasible = consequences.columns.filter((column) => column.feasible);
  const found = feasible.map((column) => refuteColumn(column, counts));
  return found.every((refutations) => refutations.length > 0) ? found.flat() : [];
};
