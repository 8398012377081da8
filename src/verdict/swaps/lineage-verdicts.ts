import type { Assessment } from '#record/schema/assessment';
import { type EffectCell, type EffectTable, effectTable } from '#swaps/lineage/effect-table';
import { type LineageStep, lineageAcrossFirmware, lineageFromPredecessor } from '#swaps/lineage/lineage';
import { lineageWords } from '#swaps/lineage/lineage-words';
import type { DiagnosedSwaps } from './diagnosed-swaps.ts';
import type { LineageVerdict } from './swaps-verdict.ts';
import { judgedPart } from './what-does-it.ts';

/**
 * Which effects did each part show on each firmware version? Pools told apart and runs set aside as the diagnosis has them,
 * pieces of blocked donors put apart.
 */
export const diagnosedTable = ({ runs, diagnoses, firmware }: DiagnosedSwaps): EffectTable => {
  const table = effectTable({ runs, listedFirmware: firmware });
  const judged = new Map(
    [...diagnoses].map(([part, found]) => [part, judgedPart(found, runs.get(part) ?? []).effects]),
  );
  const told = (cell: EffectCell): EffectCell =>
    judged.get(cell.part)?.find((effect) => effect.cell.firmware === cell.firmware)?.cell ?? cell;
  return { ...table, rows: table.rows.map((row) => ({ ...row, cells: row.cells.map(told) })) };
};

/** What became of each part's effect across firmware versions, by part? */
export const acrossFirmware = (table: EffectTable): ReadonlyMap<string, readonly LineageVerdict[]> => {
  const steps = lineageAcrossFirmware(table);
  return new Map(
    table.rows.map(({ part }) => [part, steps.filter((step) => step.part === part).map((step) => shown(step, true))]),
  );
};

/** A record before, and what its swaps came to. */
export interface Predecessor {
  readonly assessment: Assessment;
  readonly table: EffectTable;
}

/**
 * What became of each part's effect since the predecessor, by part? Compared is the part of the same id and role, else the only
 * part of its role in both; a part without an answering one is left out.
 */
export const fromPredecessor = (
  table: EffectTable,
  { parts = {} }: Assessment,
  before: Predecessor,
): ReadonlyMap<string, LineageVerdict> => {
  const answering = answeringPart(parts, before.assessment.parts ?? {});
  const product = before.assessment.product.name;
  const steps = lineageFromPredecessor(table, (part) => {
    const other = answering(part);
    if (other === undefined) return undefined;
    return { product, cells: before.table.rows.find((row) => row.part === other)?.cells ?? [] };
  });
  return new Map(steps.map((step) => [step.part, shown(step, false)]));
};

type Parts = NonNullable<Assessment['parts']>;

const answeringPart = (parts: Parts, before: Parts): ((part: string) => string | undefined) => {
  const only = (of: Parts, role: string): string | undefined => {
    const [first, ...others] = Object.keys(of).filter((id) => of[id]?.role === role);
    return others.length === 0 ? first : undefined;
  };
  return (part) => {
    const role = parts[part]?.role;
    if (before[part] && before[part].role === role) return part;
    return role !== undefined && only(parts, role) === part ? only(before, role) : undefined;
  };
};

const shown = (step: LineageStep, hasOwnBefore: boolean): LineageVerdict => ({
  state: step.state,
  words: lineageWords(step),
  runs: [...(hasOwnBefore ? (step.from.cell?.runs ?? []) : []), ...(step.to.cell?.runs ?? [])],
});
