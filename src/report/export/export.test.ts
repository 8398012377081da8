import { expect, test } from 'vitest';
import { fixtureVerdict } from '../../../test/fixtures/verdict.ts';
import { canonicalJson, renderJson } from './canonical-json.ts';
import { csvText } from './csv.ts';
import { renderCsvFasteners, renderCsvSteps } from './csv-tables.ts';

/** A reader of RFC 4180 written from its grammar alone, so that the writer is not its own judge. */
function readCsv(text: string): readonly (readonly string[])[] {
  const rows: string[][] = [];
  const cell = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/y;
  let row: string[] = [];
  while (cell.lastIndex < text.length) {
    const match = cell.exec(text);
    if (match === null) throw new Error('not RFC 4180');
    row.push(match[1]?.replaceAll('""', '"') ?? match[2] ?? '');
    if (match[3] === '\r\n') {
      rows.push(row);
      row = [];
    }
  }
  return rows;
}

test('canonicalJson orders keys at every level and keeps the order of lists', () => {
  const one = canonicalJson({ b: [{ z: 1, a: 2 }], a: null, __proto__: { x: 1 } });
  expect(one).toBe('{\n  "a": null,\n  "b": [\n    {\n      "a": 2,\n      "z": 1\n    }\n  ]\n}\n');
});

test('renderJson gives the whole verdict back, whatever the order its keys were made in', () => {
  const shuffled = Object.fromEntries(Object.entries(fixtureVerdict).reverse()) as unknown as typeof fixtureVerdict;
  expect(renderJson(shuffled)).toBe(renderJson(fixtureVerdict));
  expect(JSON.parse(renderJson(fixtureVerdict))).toEqual(fixtureVerdict);
});

test('csvText quotes what RFC 4180 says must be quoted and reads back', () => {
  const rows = [
    ['a "b", c', 'line\r\nbreak', 'plain'],
    ['🔧', 'מסך', ''],
  ];
  expect(readCsv(csvText(['x', 'y', 'z'], rows))).toEqual([['x', 'y', 'z'], ...rows]);
});

test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', ' =1', '＝1', '\u200b=1', '\r=1'])(
  'csvText lets no spreadsheet run %j',
  (text) => {
    expect(readCsv(csvText(['x'], [[text]]))[1]).toEqual([`'${text}`]);
  },
);

test('csvText leaves figures, yes and no, and empty cells alone', () => {
  expect(csvText(['a', 'b', 'c'], [[-3.5, true, undefined]])).toBe('a,b,c\r\n-3.5,yes,\r\n');
});

test('renderCsvSteps has a row for every ledger line of every basis, units in the head', () => {
  const rows = readCsv(renderCsvSteps(fixtureVerdict));
  const lines = fixtureVerdict.parts.flatMap(({ best, observed, declared }) =>
    [best, observed, declared].flatMap((route) => route?.lines ?? []),
  );
  expect(rows.length).toBe(lines.length + 1);
  expect(rows[0]?.[10]).toBe('mean time [s]');
  expect(new Set(rows.map((row) => row.length))).toEqual(new Set([18]));
  const pull = rows.find((row) => row[0] === 'battery' && row[3] === 'best found' && row[4] === '8');
  expect(pull?.slice(6, 15)).toEqual([
    'pull both strips out; lift the battery',
    'tweezers',
    'strip',
    'battery removed',
    '95',
    '88',
    '70',
    '131',
    '3',
  ]);
});

test('renderCsvFasteners names pieces, the class left and the shared burden', () => {
  const rows = readCsv(renderCsvFasteners(fixtureVerdict));
  const glue = rows.find((row) => row[0] === 'battery' && row[2] === 'best found' && row[5] === 'cover-glue');
  expect(glue?.slice(3)).toEqual([
    '3',
    '4',
    'cover-glue',
    'perimeter adhesive',
    'adhesive',
    '1',
    'resupplied',
    'no',
    '27',
    '4122',
  ]);
});
