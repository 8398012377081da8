import type { EffectCode } from '../model/swap-run.ts';
import type { EffectCell, EffectTable } from './effect-table.ts';

/**
 * What became of an effect from one level to the next? `none`: no effect at either. `open`: runs of one level disagree, the worst
 * effect being seen once among others. `not-tested`: no foreign fit at one of the two says anything.
 */
export type LineageState = 'carried-over' | 'fixed' | 'new' | 'changed' | 'none' | 'open' | 'not-tested';

/** One end of a comparison: what a part showed on one firmware version of one product. */
export interface TestedLevel {
  /** Undefined is the product itself; else the name of its predecessor. */
  readonly product?: string;
  readonly cell?: EffectCell;
}

/** One step of a part's lineage: from a level to a later one, and what became of the effect. */
export interface LineageStep {
  readonly part: string;
  readonly from: TestedLevel;
  readonly to: TestedLevel;
  readonly state: LineageState;
}

/** The part of the predecessor with which one is compared, its name, and the predecessor's cells. */
export interface PredecessorCells {
  readonly product: string;
  readonly cells: readonly EffectCell[];
}

/**
 * Which effect stands for a cell? The worst one where at least two runs showed it, or where only one run was made. Undefined
 * where nothing was counted; `disagree` where the worst was seen once among runs that showed something else. An own part that is
 * no longer taken (E7) is seen beside what the foreign one showed, and contradicts none of it.
 */
export const standingEffect = ({ worst, reproduced, runs }: EffectCell): EffectCode | 'disagree' | undefined => {
  if (worst === undefined || worst === 'E7' || worst === reproduced || runs.length === 1) return worst;
  return 'disagree';
};

/** What became of the effect between two cells? */
const lineageState = (from: EffectCell | undefined, to: EffectCell | undefined): LineageState => {
  const [before, after] = [from && standingEffect(from), to && standingEffect(to)];
  if (before === undefined || after === undefined) return 'not-tested';
  if (before === 'disagree' || after === 'disagree') return 'open';
  if (before === after) return before === 'E0' ? 'none' : 'carried-over';
  if (before === 'E0') return 'new';
  return after === 'E0' ? 'fixed' : 'changed';
};

/**
 * What became of a part's effect from each firmware version to the next on which it was tested? Versions on which it was not
 * tested are passed over, so that a gap does not hide what came of an effect; firmware not recorded has no place in the order.
 */
export const lineageAcrossFirmware = (table: EffectTable): readonly LineageStep[] =>
  table.rows.flatMap(({ part, cells }) => {
    const tested = testedCells(cells);
    return tested.slice(1).map((to, index) => {
      const from = tested[index];
      return { part, from: { ...(from ? { cell: from } : {}) }, to: { cell: to }, state: lineageState(from, to) };
    });
  });

/**
 * What became of an effect since the predecessor? What a part showed on the last firmware tested on the predecessor against the
 * last tested on the product. `cellsOf` gives the cells of the part of the predecessor that answers to a part.
 */
export const lineageFromPredecessor = (
  table: EffectTable,
  cellsOf: (part: string) => PredecessorCells | undefined,
): readonly LineageStep[] =>
  table.rows.flatMap(({ part, cells }) => {
    const before = cellsOf(part);
    if (!before) return [];
    const [from, to] = [testedCells(before.cells).at(-1), testedCells(cells).at(-1)];
    return [
      {
        part,
        from: { product: before.product, ...(from ? { cell: from } : {}) },
        to: { ...(to ? { cell: to } : {}) },
        state: lineageState(from, to),
      },
    ];
  });

const testedCells = (cells: readonly EffectCell[]): readonly EffectCell[] =>
  cells.filter(({ firmware, worst }) => firmware !== undefined && worst !== undefined);
