import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { deviceX, known } from '../../../test/index-inputs.ts';
import { FASTENER_POINTS, STEP_BANDS, STEPS_PER_REMOTE_ACTION, stepsEarning, TOOL_POINTS } from './bands.ts';
import { CLASS_TABLE } from './classes.ts';
import { evaluateIndex } from './evaluate-index.ts';
import { INFORMATION_TABLE } from './information-ladder.ts';
import { INFORMATION_ITEMS, PRIORITY_ROLES } from './input.ts';
import { DEFAULT_INTERPRETATIONS } from './interpretations.ts';
import { CELEX, CONSOLIDATED } from './method.ts';
import { SIZE_RANGES } from './scope.ts';
import { SPARE_TABLE } from './spare-ladder.ts';
import { R_TOLERANCE_PER_CENT } from './surveillance.ts';
import { UPDATE_TABLE } from './update-ladder-rules.ts';
import { PART_WEIGHTS, SCORE_WEIGHTS } from './weights.ts';

type Row = Readonly<Record<string, unknown>>;
interface Table {
  readonly clause: string;
  readonly rows: readonly Row[];
  readonly items?: readonly Row[];
  readonly out?: readonly Row[];
}

const path = new URL('../../../references/eu-2023-1669.yaml', import.meta.url);
const file = parse(readFileSync(path, 'utf8')) as Readonly<Record<string, unknown>>;

const table = (name: string): Table => file[name] as Table;

/** Rows without their marks. */
const rows = (name: string): readonly Row[] => table(name).rows.map(({ mark: _, ...row }) => row);

const pointsBy = (name: string): Row => Object.fromEntries(rows(name).map((row) => [row.class, row.points]));

describe('references/eu-2023-1669.yaml', () => {
  it('is of the state that results are stamped with', () => {
    expect([file.identifier, file.consolidated]).toEqual([`CELEX ${CELEX}`, CONSOLIDATED]);
  });

  it('gives a clause a table and a known mark a row', () => {
    const tables = Object.values(file).filter((value): value is Table => typeof value === 'object' && value !== null);
    expect(tables.length).toBe(13);
    for (const { clause, rows: main, items = [], out = [] } of tables) {
      expect(clause).toMatch(/Annex|Article/);
      for (const { mark } of [...main, ...items, ...out]) expect(['read', 'reading', 'derived']).toContain(mark);
    }
  });

  it('has the weights of the code', () => {
    expect(Object.fromEntries(rows('score-weights').map((row) => [row.score, row.weight]))).toEqual(SCORE_WEIGHTS);
    for (const column of ['non-foldable', 'foldable'] as const) {
      const listed = rows('part-weights').filter((row) => row[column] !== null);
      expect(Object.fromEntries(listed.map((row) => [row.role, row[column]]))).toEqual(PART_WEIGHTS[column]);
    }
    expect(rows('part-weights').map((row) => row.role)).toEqual([...PRIORITY_ROLES]);
  });

  it('has the bands and points of the code', () => {
    const bands = rows('step-bands').map(({ upTo, points }) => ({ upTo: upTo ?? Number.POSITIVE_INFINITY, points }));
    expect(bands).toEqual(STEP_BANDS);
    for (const { from, points } of rows('step-bands')) expect(stepsEarning(Number(points))?.least).toBe(from);
    expect([pointsBy('fasteners'), pointsBy('tools')]).toEqual([FASTENER_POINTS, TOOL_POINTS]);
    expect(rows('remote-action-steps')[0]?.steps).toBe(STEPS_PER_REMOTE_ACTION);
  });

  it('has the ladders of the code', () => {
    expect(rows('spare-parts')).toEqual(SPARE_TABLE);
    expect(rows('updates')).toEqual(UPDATE_TABLE);
    expect(rows('information')).toEqual(INFORMATION_TABLE);
    expect(table('information').items?.map(({ item }) => item)).toEqual([...INFORMATION_ITEMS]);
  });

  it('has the classes, the tolerance and the sizes of the code', () => {
    expect(rows('classes')).toEqual(CLASS_TABLE);
    expect(rows('surveillance')[0]?.['at-most-per-cent']).toBe(R_TOLERANCE_PER_CENT);
    const sizes = Object.fromEntries(rows('scope').map(({ category, ...range }) => [category, range]));
    expect(sizes).toEqual(SIZE_RANGES);
  });

  it('has the points of an absent part', () => {
    const parts = { ...deviceX().parts, button: { absent: known(true), instances: [] } };
    const { button } = evaluateIndex(deviceX({}, { parts }), DEFAULT_INTERPRETATIONS).figures.parts;
    expect(rows('absent-part')).toEqual([{ points: button?.DD }]);
    expect([button?.F, button?.T]).toEqual([button?.DD, button?.DD]);
  });
});
