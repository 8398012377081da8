import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { readRubric } from './read-rubric.ts';
import { rubricJsonSchema } from './rubric-json-schema.ts';

const committed = (path: string): string => readFileSync(new URL(`../../../${path}`, import.meta.url), 'utf8');
const shipped = committed('rubrics/quayside-general.yaml');
const read = (text: string) => readRubric({ fileName: 'house.yaml', bytes: new TextEncoder().encode(text) });
const problemsOf = (text: string): readonly string[] =>
  read(text).problems.map(({ line, column, path, kind }) => `${line}:${column} ${path} ${kind}`);

const head =
  'format: unfasten/rubric\nversion: 1\nid: house\ntitle: House\nedition: 1\nauthor: A. B.\ndate: 2026-11-25\n';

test('the shipped rubric is read without a problem, says that it is invented, and fits the JSON Schema', () => {
  const { rubric, problems } = read(shipped);
  expect([problems, rubric?.id, rubric?.invented]).toEqual([[], 'quayside-general', true]);
  const validate = new Ajv2020({ strict: true, strictTypes: false, validateFormats: false }).compile({
    ...rubricJsonSchema(),
  });
  expect([validate(parse(shipped)), validate.errors]).toEqual([true, null]);
  expect(validate({ ...parse(shipped), weight: 1 })).toBe(false);
});

test('the committed JSON Schema is the one made from the schema', () => {
  expect(JSON.parse(committed('schema/rubric.schema.json'))).toEqual(rubricJsonSchema());
});

test('all problems come at once with their places, those of shape and those of sense', () => {
  const text = `${head}criteria:
  depth:
    title: Depth
    metric: { of: steps, role: batery, basis: best }
    scale: { table: [{ points: 1 }] }
    weight: 1
  classes:
    title: Classes
    metric: { of: reuse-class, role: battery }
    scale: { words: { reusable: 100, resuplied: 50, removable: 20, destroyed: 0 } }
    weight: 0
  price:
    title: Price
    metric: { of: price-ratio, role: battery, basis: best }
    scale: { line: [{ at: 1/2, points: 0 }, { at: 1/3, points: 100 }], words: { a: 1 } }
    weight: -1/2
caps:
  none-left:
    title: None left
    when: { metric: { of: pairing, role: battery }, is: [none] }
    atMost: 120
  twice:
    title: Twice
    when: { metric: { of: steps, role: battery, basis: best }, above: 3, below: 9 }
    atMost: 10
colour: green
`;
  expect(problemsOf(text)).toEqual([
    '11:32 criteria/depth/metric/role value',
    '16:13 criteria/classes/metric missing-field',
    '17:21 criteria/classes/scale/words missing-field',
    '17:38 criteria/classes/scale/words/resuplied unknown-field',
    '18:13 criteria/classes/weight value',
    '21:47 criteria/price/metric/basis unknown-field',
    '22:12 criteria/price/scale contradiction',
    '22:51 criteria/price/scale/line/1/at order',
    '22:72 criteria/price/scale/words contradiction',
    '23:13 criteria/price/weight value',
    '28:13 caps/none-left/atMost value',
    '31:11 caps/twice/when contradiction',
    '33:1 colour unknown-field',
  ]);
});

test('a scale without an end, a reserved id and too many roles at once are refused', () => {
  expect(
    problemsOf(`${head}criteria:
  a: { title: A, metric: { of: steps, role: battery, basis: best }, scale: { table: [{ upTo: 2, points: 1 }] }, weight: 1 }
`),
  ).toEqual(['9:86 criteria/a/scale/table/0 contradiction']);
  expect(problemsOf(`${head}criteria: {}\n`)).toEqual(['8:11 criteria value']);
  const roles = ['display', 'speaker', 'button', 'microphone', 'hinge', 'tray', 'motor', 'filter', 'foil', 'frame'];
  const chain = ['front-camera', 'rear-camera', 'sensor', ...roles].map(
    (role, index) =>
      `  c${index}: { title: C, metric: { of: reversible, role: battery }, scale: { words: { shown: 1, not-shown: 0 } }, weight: 1, applies: { has: [${role}] } }`,
  );
  expect(problemsOf(`${head}criteria:\n${chain.join('\n')}\n`)).toEqual(['9:3 criteria limit']);
  expect(problemsOf('a: [')).not.toEqual([]);
});
