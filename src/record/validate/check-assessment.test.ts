import { describe, expect, test } from 'vitest';
import { seedRecord } from '../../../test/faults/seed-record.ts';
import { type Spoil, spoilt } from '../../../test/faults/spoilt-record.ts';
import { duration, id, quantityText } from '../schema/basics.ts';
import { schemaFields } from '../schema-fields.ts';
import { checkAssessment } from './check-assessment.ts';
import { quantityFields } from './quantity-table.ts';
import { referenceFields, surroundedReferences } from './reference-table.ts';

const found = (...changes: readonly Spoil[]): readonly string[] =>
  checkAssessment(spoilt(...changes)).map(({ path, kind }) => `${path.join('/')} ${kind}`);

test('checkAssessment finds nothing in a record without faults', () => {
  expect(checkAssessment(seedRecord())).toEqual([]);
});

test('checkAssessment passes over data of any other shape', () => {
  for (const data of [
    undefined,
    null,
    1,
    'x',
    [],
    { parts: [] },
    { parts: { a: 1 } },
    { sessions: { x: { entries: [1] } } },
  ])
    expect(checkAssessment(data)).toEqual([]);
});

describe('every reference must name something of its sort', () => {
  test.each([
    'product/reference',
    'parts/cover/face',
    'parts/cell/within',
    'parts/battery/behind/1/0',
    'parts/battery/requires/support/first/0',
    'parts/battery/trials/t1/off/0',
    'parts/battery/trials/t1/specimen',
    'parts/battery/trials/t1/session',
    'parts/battery/trials/t1/entry',
    'fasteners/plug/between/1',
    'fasteners/cover-glue/ways/warm/actions/1/tools/0',
    'fasteners/cover-glue/ways/warm/fallback',
    'spares/s1/replaces/0',
    'spares/s1/includes/0',
    'spares/s1/contents/fasteners/0',
    'spares/s1/contents/tools/0',
    'sessions/x1/entries/e1/target',
    'sessions/x1/entries/e1/way',
    'sessions/x1/entries/e1/goal',
    'sessions/x1/entries/e2/goal/1',
    'sessions/x1/entries/e2/tools/0',
    'sessions/x1/entries/e2/free/0',
    'sessions/x1/entries/e3/interval',
    'sessions/x1/entries/e4/corrects',
    'sessions/x1/entries/e4/evidence/0',
    'sessions/x2/startsAs/leftBy',
    'procedures/p1/for',
    'procedures/p1/steps/0/way',
    'damage/d1/subject',
    'damage/d1/session',
    'damage/d1/after',
    'swaps/w1/part',
    'swaps/w1/donor/specimen',
    'swaps/w1/donor/spare',
    'swaps/w1/session',
    'swapBench/hosts/1',
    'swapBench/donors/d1/part',
    'swapBench/donors/d1/spare',
    'swapBench/parts/battery/connectors/0/fastener',
    'swapBench/parts/battery/checks/0',
    'measures/m1/specimen',
    'evidence/clip/session',
    'product/publicSheet/evidence/0',
    'decisions/d1/overrides',
  ])('%s', (path) => {
    expect(found([path, 'nowhere'])).toContain(`${path} unknown-reference`);
  });

  test('the remedy names what was probably meant, and the sort that was expected', () => {
    const [typo] = checkAssessment(spoilt(['parts/cell/within', 'batery']));
    expect(typo?.remedy).toBe('Did you mean "battery"?');
    const [sort] = checkAssessment(spoilt(['sessions/x1/entries/e2/free', ['screws']]));
    expect(sort?.message).toBe('"screws" is a fastener, but a part is expected here');
  });

  test('a log alone may name things that are described nowhere', () => {
    const { sessions, format, version, product, specimens } = seedRecord() as Record<string, object>;
    const { reference: _, publicSheet: __, ...model } = product as Record<string, unknown>;
    const log = structuredClone({ format, version, product: model, specimens, sessions }) as never;
    Reflect.deleteProperty(
      (log as { sessions: { x1: { entries: { e4: object } } } }).sessions.x1.entries.e4,
      'evidence',
    );
    expect(checkAssessment(log)).toEqual([]);
  });
});

test.each([
  ['parts/cover/mass', '8 min', 'dimension'],
  ['parts/battery/energy', '17 g', 'dimension'],
  ['parts/battery/mass', '3.1', 'quantity'],
  ['product/diagonal', '-6.3 in', 'value'],
  ['product/price', '649 g', 'dimension'],
  ['specimens/a/charge', '125 %', 'value'],
  ['sessions/x1/entries/e2/took', '3 g', 'dimension'],
  ['sessions/x1/entries/e1/cellSide', '47 g', 'dimension'],
  ['spares/s1/delivery', '3 kg', 'dimension'],
  ['swaps/w1/soak', '2 g', 'dimension'],
  ['swaps/w1/pairing/cost', '5 g', 'dimension'],
  ['swaps/w1/measured/0/before', 'bright', 'quantity'],
  ['swapBench/parts/battery/open', '3 m', 'dimension'],
  ['measures/m1/value', 'some', 'quantity'],
])('the quantity %s = %s is a problem of kind %s', (path, value, kind) => {
  expect(found([path, value])).toEqual([`${path} ${kind}`]);
});

test('a dimension problem says what was expected and what was found', () => {
  const [problem] = checkAssessment(spoilt(['parts/cover/mass', '8 min']));
  expect(problem).toMatchObject({
    message: 'mass expected, found time',
    value: '8 min',
    remedy: 'Write it in a unit such as g.',
  });
});

test.each<readonly [string, readonly Spoil[], string]>([
  ['carriers in a circle', [['parts/battery/within', 'cell']], 'parts/battery/within cycle'],
  ['a carrier that does not exist', [['parts/battery/absent', true]], 'parts/cell/within contradiction'],
  [
    'a fallback circle',
    [['fasteners/cover-glue/ways/solvent/fallback', 'warm']],
    'fasteners/cover-glue/ways/solvent/fallback cycle',
  ],
  [
    'precedence in a circle',
    [
      ['decisions', {}],
      ['fasteners/plug/requires', { a: { first: ['battery'], why: 'support' } }],
      ['parts/battery/requires/support/first', ['plug']],
    ],
    'parts/battery/requires/support/first cycle',
  ],
  [
    'a fastener with one end',
    [['fasteners/plug/between', ['board', 'board']]],
    'fasteners/plug/between/1 contradiction',
  ],
  [
    'one name for two things',
    [['fasteners/cover', { kind: 'clip', between: ['board', 'chassis'] }]],
    'fasteners/cover clash',
  ],
  ['a part called chassis', [['parts/chassis', {}]], 'parts/chassis reserved-key'],
  ['a thing behind itself', [['parts/cover/behind', [['cover']]]], 'parts/cover/behind/0 contradiction'],
  [
    'a trial with the thing itself off',
    [['parts/battery/trials/t1/off', ['battery']]],
    'parts/battery/trials/t1/off contradiction',
  ],
  [
    'a ruling without damage',
    [['parts/battery/trials/t1/ruling', 'counts-as-came']],
    'parts/battery/trials/t1/ruling contradiction',
  ],
  [
    'a trial on another specimen',
    [['parts/battery/trials/t1/specimen', 'b']],
    'parts/battery/trials/t1/specimen contradiction',
  ],
  ['a hold that runs backwards', [['sessions/x1/holds/h1/to', 1]], 'sessions/x1/holds/h1/to order'],
  [
    'holds over each other',
    [['sessions/x1/holds/h2', { from: 312, to: 330, reason: 'x' }]],
    'sessions/x1/holds/h2/from contradiction',
  ],
  [
    'retakes over each other',
    [['sessions/x1/retakes', { a: { from: 300, to: 320 }, b: { from: 310, to: 330 } }]],
    'sessions/x1/retakes/b/from contradiction',
  ],
  [
    'a retake of nothing',
    [['sessions/x1/retakes', { a: { from: 300, repeats: 'e9' } }]],
    'sessions/x1/retakes/a/repeats unknown-reference',
  ],
  ['the end of no beginning', [['sessions/x1/entries/e1/ends', 'e9']], 'sessions/x1/entries/e1/ends unknown-reference'],
  ['an interval that runs backwards', [['sessions/x1/intervals/i1/to', 1]], 'sessions/x1/intervals/i1/to order'],
  ['a start after the end', [['sessions/x1/entries/e1/began', 500]], 'sessions/x1/entries/e1/began order'],
  [
    'took longer than the session',
    [['sessions/x1/entries/e2/took', '10 min']],
    'sessions/x1/entries/e2/took suspicious',
  ],
  ['all of a set called partial', [['sessions/x1/entries/e3/did', 4]], 'sessions/x1/entries/e3/did contradiction'],
  ['a part of a set called done', [['sessions/x1/entries/e4/did', 3]], 'sessions/x1/entries/e4/did contradiction'],
  [
    'failed yet released',
    [
      ['sessions/x1/entries/e2/outcome', 'failed'],
      ['sessions/x1/entries/e2/released', ['cover-glue']],
    ],
    'sessions/x1/entries/e2/released contradiction',
  ],
  ['a way of a part', [['sessions/x1/entries/e2/target', 'cover']], 'sessions/x1/entries/e2/way contradiction'],
  ['work on what does not exist', [['fasteners/screws/absent', true]], 'sessions/x1/entries/e3/target contradiction'],
  ['a correction of itself', [['sessions/x1/entries/e4/corrects', 'e4']], 'sessions/x1/entries/e4/corrects cycle'],
  [
    'two corrections of one entry',
    [['sessions/x1/entries/e2/corrects', 'e3']],
    'sessions/x1/entries/e4/corrects contradiction',
  ],
  [
    'withdrawn without a correction',
    [['sessions/x1/entries/e1/withdrawn', true]],
    'sessions/x1/entries/e1/withdrawn contradiction',
  ],
  ['sessions in a circle', [['sessions/x1/startsAs', { leftBy: 'x2' }]], 'sessions/x1/startsAs/leftBy cycle'],
  [
    'left by a later session',
    [['sessions/x2/start', '2026-09-01T09:00:00+02:00']],
    'sessions/x2/startsAs/leftBy order',
  ],
  [
    'left by the work on another specimen',
    [['sessions/x2/specimen', 'b']],
    'sessions/x2/startsAs/leftBy contradiction',
  ],
  ['damage before it can have happened', [['damage/d1/after', 'e4']], 'damage/d1/before order'],
  ['withdrawn before placed on the market', [['product/endOfPlacing', '2020-01-01']], 'product/endOfPlacing order'],
  [
    'steps of an absent part',
    [['product/scoreSheet/parts/hinge/steps', 3]],
    'product/scoreSheet/parts/hinge/steps contradiction',
  ],
])('checkAssessment finds %s', (_, changes, expected) => {
  expect(found(...changes)).toContain(expected);
});

test('every field of the schema that holds an id is a checked reference', () => {
  const evidence = (pattern: string) => pattern.endsWith('/evidence/*');
  const known = new Set([...referenceFields.map(({ pattern }) => pattern), ...surroundedReferences]);
  const unchecked = schemaFields().filter(
    ({ pattern, schema }) => isMadeFrom(schema, id) && !known.has(pattern) && !evidence(pattern),
  );
  expect(unchecked.map(({ pattern }) => pattern)).toEqual([]);
});

test('every field of the schema that holds a quantity has its dimension checked', () => {
  const known = new Set(quantityFields.map(({ pattern }) => pattern));
  const unchecked = schemaFields().filter(
    ({ schema }) => isMadeFrom(schema, quantityText) || isMadeFrom(schema, duration),
  );
  expect(unchecked.map(({ pattern }) => pattern).filter((pattern) => !known.has(pattern))).toEqual([]);
});

const isMadeFrom = (schema: unknown, origin: unknown): boolean => {
  let here = schema as { _zod: { parent?: unknown } } | undefined;
  while (here) {
    if (here === origin) return true;
    here = here._zod.parent as typeof here;
  }
  return false;
};
