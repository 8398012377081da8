import { dump } from 'js-yaml';
import { expect, test } from 'vitest';
import { parseDocument } from 'yaml';
import type { Problem } from '#record/problem';
import { decodeText } from '#record/read/decode-text';
import { fastYaml } from '#record/read/fast-yaml';
import { parseJson, parseJsonClosely } from '#record/read/parse-json';
import { parseYamlClosely } from '#record/read/parse-yaml';
import { lineStarts } from '#record/read/position-index';
import { readAssessment } from '#record/read/read-assessment';
import { assessment } from '#record/schema/assessment';
import { share } from '../share.ts';
import { type MutatedFile, mutatedFile } from './mutations.ts';
import { seedRecord } from './seed-record.ts';

const CASES = share(800, 20_000);
const LONG = { timeout: 1_200_000 };

const textOf = ({ bytes }: MutatedFile): string => new TextDecoder().decode(bytes);

const faultOf = (problem: Problem, lines: readonly string[]): string | undefined => {
  if (!Number.isInteger(problem.line) || problem.line < 1 || problem.line > lines.length) return 'line';
  if (!Number.isInteger(problem.column) || problem.column < 1) return 'column';
  if (problem.column > (lines[problem.line - 1] ?? '').length + 1) return 'column past the line';
  if (typeof problem.path !== 'string' || problem.message === '' || problem.remedy === '') return 'words';
  return undefined;
};

test(`readAssessment throws nothing on ${CASES} spoilt records and places every problem`, LONG, () => {
  const seen = { bytes: 0, tokens: 0, structure: 0, sound: 0, spoilt: 0 };
  for (let number = 1; number <= CASES; number += 1) {
    const file = mutatedFile(number);
    const { assessment: data, problems } = readAssessment(file);
    const lines = textOf(file).split(/\r\n|\n|\r/);
    const errors = problems.filter(({ severity }) => severity === 'error');
    expect({ number, faults: problems.map((problem) => faultOf(problem, lines)).filter(Boolean) }).toEqual({
      number,
      faults: [],
    });
    expect({ number, sound: data !== undefined }).toEqual({ number, sound: errors.length === 0 });
    if (data) expect({ number, fits: assessment.safeParse(data).success }).toEqual({ number, fits: true });
    seen[file.how] += 1;
    seen[data ? 'sound' : 'spoilt'] += 1;
  }
  // The mutations must really spoil: most of every kind, and never all of them.
  expect(Math.min(seen.bytes, seen.tokens, seen.structure)).toBeGreaterThan(CASES / 5);
  expect(seen.spoilt).toBeGreaterThan(CASES / 2);
  expect(seen.sound).toBeGreaterThan(CASES / 100);
});

test('the fast JSON reading and the one with places agree on every spoilt JSON text', LONG, () => {
  let compared = 0;
  for (let number = 1; number <= CASES; number += 1) {
    const file = mutatedFile(number);
    const { text } = decodeText(file.bytes);
    if (!file.fileName.endsWith('.json') || text === undefined) continue;
    const [fast, close] = [parseJson(text), parseJsonClosely(text)];
    expect({ number, ...fast }).toEqual({ number, ...close });
    compared += 1;
  }
  expect(compared).toBeGreaterThan(CASES / 4);
});

test('the fast YAML reading and the full one agree on every spoilt YAML text that the fast one takes', LONG, () => {
  let taken = 0;
  for (let number = 1; number <= CASES; number += 1) {
    const file = mutatedFile(number);
    const { text } = decodeText(file.bytes);
    const plain = text === undefined || file.fileName.endsWith('.json') ? undefined : fastYaml(text);
    if (text === undefined || !plain) continue;
    const { data, problems } = parseYamlClosely(text);
    expect({ number, data: plain.data, problems: [] }).toEqual({ number, data, problems });
    taken += 1;
  }
  expect(taken).toBeGreaterThan(CASES / 10);
});

test('every JSON text that the close parser finds faultless is one to the platform, with the same data', LONG, () => {
  for (let number = 1; number <= CASES; number += 1) {
    const file = mutatedFile(number);
    const { text } = decodeText(file.bytes);
    if (!file.fileName.endsWith('.json') || text === undefined) continue;
    const { data, problems } = parseJsonClosely(text);
    if (problems.length === 0) expect({ number, data }).toEqual({ number, data: JSON.parse(text) });
    else if (problems.every(({ kind }) => kind === 'syntax') && !/\\u[dD]/.test(text))
      expect(() => JSON.parse(text), `case ${number}: ${problems[0]?.message}`).toThrow();
  }
});

test('a record without faults has no problems, as YAML and as JSON', LONG, () => {
  const record = seedRecord();
  for (const [fileName, text] of [
    ['assessment.json', JSON.stringify(record)],
    ['assessment.yaml', dump(record)],
  ] as const) {
    const reading = readAssessment({ fileName, bytes: new TextEncoder().encode(text) });
    expect(reading).toEqual({ assessment: record, problems: [] });
  }
});

/** Where the value or its key stands according to another YAML parser; `undefined` where that finds neither. */
const placesOf = (document: ReturnType<typeof parseDocument>, path: string): readonly number[] | undefined => {
  const segments = path.split('/').map((segment) => (/^\d+$/.test(segment) ? Number(segment) : segment));
  const parent = document.getIn(segments.slice(0, -1), true) as
    | { items?: { key?: { value?: unknown; range?: number[] } }[] }
    | undefined;
  const node = document.getIn(segments, true) as { range?: number[] } | undefined;
  const pair = parent?.items?.find((item) => item.key?.value === segments.at(-1));
  const places = [node?.range?.[0], pair?.key?.range?.[0]].filter((place) => place !== undefined);
  return places.length > 0 ? places : undefined;
};

test(
  'every place points at the value or its key: checked with another YAML parser, and with the text of JSON',
  LONG,
  () => {
    let yamlPlaces = 0;
    let jsonPlaces = 0;
    for (let number = 1; number <= Math.min(CASES, 3_000); number += 1) {
      const file = mutatedFile(number);
      if (file.how !== 'structure') continue;
      const text = textOf(file);
      const document = file.fileName.endsWith('.yaml') ? parseDocument(text) : undefined;
      const starts = lineStarts(text);
      for (const problem of readAssessment(file).problems) {
        const offset = (starts[problem.line - 1] ?? 0) + problem.column - 1;
        if (problem.path === '' || problem.kind === 'missing-field') continue;
        if (document) {
          const places = placesOf(document, problem.path);
          if (places)
            expect({ number, path: problem.path, places }).toEqual({
              number,
              path: problem.path,
              places: expect.arrayContaining([offset]),
            });
          yamlPlaces += places ? 1 : 0;
        } else if (
          problem.value !== undefined &&
          /^["\d-]/.test(problem.value) &&
          !problem.value.includes('…') &&
          !/^[[{]/.test(text.slice(offset))
        ) {
          expect({ number, path: problem.path, found: text.slice(offset, offset + problem.value.length) }).toEqual({
            number,
            path: problem.path,
            found: problem.value,
          });
          jsonPlaces += 1;
        }
      }
    }
    expect(yamlPlaces).toBeGreaterThan(100);
    expect(jsonPlaces).toBeGreaterThan(100);
  },
);
