import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { editScalar } from './edit-scalar.ts';

const shipped = readFileSync(new URL('../../../rubrics/quayside-general.yaml', import.meta.url), 'utf8');

test('editScalar replaces one value and leaves every other character, comments too', () => {
  for (const [path, value, plain] of [
    [['criteria', 'battery-depth', 'weight'], '12.5', 12.5],
    [['criteria', 'battery-damage', 'weight'], '1/3', '1/3'],
    [['caps', 'battery-destroyed', 'atMost'], '15', 15],
    [['edition'], '2', 2],
    [['date'], '2026-12-01', '2026-12-01'],
  ] as const) {
    const edited = editScalar(shipped, path, value) ?? '';
    const expected = parse(shipped);
    let place = expected;
    for (const segment of path.slice(0, -1)) place = place[segment];
    place[path.at(-1) as string] = plain;
    expect(parse(edited)).toEqual(expected);
    const lines = shipped.split('\n');
    expect(edited.split('\n').filter((line, index) => line !== lines[index])).toHaveLength(1);
  }
});

test('editScalar keeps what stands behind a value: a comment, a comma, a bracket', () => {
  expect(editScalar('a: 1 # one\nb: 2\n', ['a'], '3')).toBe('a: 3 # one\nb: 2\n');
  expect(editScalar('a: { b: "1/2", c: 4 }\n', ['a', 'b'], '0.5')).toBe('a: { b: 0.5, c: 4 }\n');
  expect(editScalar('a: { b: 1/2, c: 4}', ['a', 'c'], '1/3')).toBe('a: { b: 1/2, c: "1/3"}');
});

test('editScalar changes nothing where nothing stands at the path', () => {
  expect(editScalar('a: 1\n', ['b'], '2')).toBeUndefined();
  expect(editScalar('a:\n  b: 1\n', ['a', 'c'], '2')).toBeUndefined();
});
