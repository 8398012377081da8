import { expect, test } from 'vitest';
import { readOdds } from '#verdict/questions/read-odds';
import type { OddsText } from '../engine/engine-messages.ts';
import { textWithOdds, textWithoutOdds } from './odds-text.ts';
import { weightFaults } from './weight-faults.ts';

const HEAD = { by: 'M. "R." & Söhne', reason: '' };
const YEARS = { 7: '2', 6: '1/3', less: '0.10' };

const read = ({ fileName, text }: OddsText) => {
  const open = new Map([
    ['supply/years', { answers: Object.keys(YEARS).map((id) => ({ id })) }],
    ['parts/x/pairing', { answers: [{ id: 'yes' }, { id: 'no' }] }],
  ]);
  const reading = readOdds({ fileName, bytes: new TextEncoder().encode(text) }, open);
  expect(reading.problems).toEqual([]);
  return reading.odds;
};

test('textWithOdds begins a document that unfasten questions takes, with the weights exactly as typed', () => {
  const odds = read(textWithOdds(undefined, HEAD, ['supply/years', YEARS]));
  expect(odds?.by).toBe(HEAD.by);
  expect(odds && 'reason' in odds).toBe(false);
  expect(odds?.weights).toEqual({ 'supply/years': { 7: '2', 6: '1/3', less: '0.1' } });
});

test('textWithOdds keeps comments and other questions, and a JSON file goes on as YAML', () => {
  const first = textWithOdds(undefined, HEAD, ['supply/years', YEARS]);
  const noted = { ...first, text: first.text.replace('questions:', '# from four products\nquestions:') };
  const second = textWithOdds(noted, { by: 'A', reason: 'b: c' }, ['parts/x/pairing', { yes: '1', no: '3' }]);
  expect(second.text).toContain('# from four products');
  expect(Object.keys(read(second)?.weights ?? {})).toEqual(['supply/years', 'parts/x/pairing']);
  const json = { fileName: 'mine.json', text: '{"format":"unfasten/odds","version":1,"by":"A","questions":{}}' };
  const asYaml = textWithOdds(json, HEAD, ['supply/years', YEARS]);
  expect([asYaml.fileName, read(asYaml)?.weights['supply/years']?.less]).toEqual(['mine.yaml', '0.1']);
});

test('textWithoutOdds leaves the other questions, and nothing where there are none', () => {
  const first = textWithOdds(undefined, HEAD, ['supply/years', YEARS]);
  const both = textWithOdds(first, HEAD, ['parts/x/pairing', { yes: '1', no: '3' }]);
  const left = textWithoutOdds(both, ['supply/years']);
  expect(Object.keys((left && read(left)?.weights) ?? {})).toEqual(['parts/x/pairing']);
  expect(left && textWithoutOdds(left, ['parts/x/pairing'])).toBeUndefined();
});

test('weightFaults takes what the reader takes, and says what is wrong by the answer', () => {
  expect(weightFaults(YEARS)).toEqual({});
  expect(Object.keys(weightFaults({ a: '', b: '-1', c: '1e3', d: '1/0', e: ' 2', f: '3' }))).toEqual([
    'a',
    'b',
    'c',
    'd',
    'e',
  ]);
  expect(weightFaults({ a: '0', b: '0/7', c: '0.00' })).toEqual({ '': 'Give at least one answer a weight above 0.' });
});
