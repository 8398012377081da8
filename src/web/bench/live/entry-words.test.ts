import { expect, test } from 'vitest';
import { deviceOf } from '#record/device/device';
import { smallRecord } from '../../../../test/records/small-record.ts';
import { entryWords } from './entry-words.ts';

const set = { kind: 'screw', count: 8, between: ['shield', 'chassis'] };
const device = deviceOf(smallRecord({ parts: { shield: {} }, fasteners: { 'shield-screws': set } }));
const partly = { at: 1, do: 'unscrew', outcome: 'partial', because: 'stripped' } as const;

test.each([
  ['shield-screws', 7, 'unscrew 7 of 8 shield screws: stripped'],
  ['shield-screws', undefined, 'unscrew some of 8 shield screws: stripped'],
  ['foot-screws', 7, 'unscrew 7, not all, foot screws: stripped'],
  ['foot-screws', undefined, 'unscrew partly foot screws: stripped'],
])('part of a set reads without a question mark, whether or not the set is described: %s %s', (target, did, words) => {
  expect(entryWords({ ...partly, target, ...(did === undefined ? {} : { did }) }, device)).toBe(words);
});
