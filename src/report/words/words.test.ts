import { expect, test } from 'vitest';
import { actionWords, difference, entryWords } from './action-words.ts';
import { chanceText, clockText, durationText, momentText } from './durations.ts';

test('clockText turns over at the minute and the hour', () => {
  expect([0, 4.24, 9.97, 59.6, 725, 3_599.4, 3_725].map(clockText)).toEqual([
    '0:00',
    '0:04',
    '0:10',
    '1:00',
    '12:05',
    '59:59',
    '1:02:05',
  ]);
});

test('durationText names its units', () => {
  expect([45, 60, 725, 3_600, 3_725].map(durationText)).toEqual(['45 s', '1 min', '12 min 5 s', '1 h', '1 h 2 min']);
});

test('chanceText never rounds a chance to none or certain', () => {
  expect([0, 0.000_1, 0.034, 0.999_9, 1].map(chanceText)).toEqual([
    'none',
    'under 0.1 %',
    '3.4 %',
    'over 99.9 %',
    'certain',
  ]);
});

test('momentText keeps the offset and leaves what is no moment as it is', () => {
  expect(momentText('2026-11-20T09:12:04.5+01:00')).toBe('2026-11-20 09:12 +01:00');
  expect(momentText('2026-11-20T09:12:00Z')).toBe('2026-11-20 09:12 UTC');
  expect(momentText('soon')).toBe('soon');
});

test('actionWords names what is released and lifted, and leaves other words alone', () => {
  const nameOf = (id: string) => ({ strips: 'battery strips' })[id] ?? id;
  expect(actionWords('release/strips/pull-slowly', nameOf)).toBe('release battery strips (pull slowly)');
  expect(actionWords('lift/battery', nameOf)).toBe('lift battery');
  expect(actionWords('sessions/m1/entries/e4', nameOf)).toBe('m1 e4');
  expect(actionWords('heat the edge', nameOf)).toBe('heat the edge');
  const addresses = ['sessions/m1/entries/e4', 'photo/1', 'sessions/x/entries/1', 'sessions/m1/entries/e5'];
  expect(entryWords(addresses)).toEqual(['m1 e4 e5', 'photo/1', 'x 1']);
});

test('difference compares the work, not its order', () => {
  expect(difference(['a', 'b'], ['b', 'a'])).toEqual({ added: [], left: [] });
  expect(difference(['a', 'c'], ['b', 'a'])).toEqual({ added: ['c'], left: ['b'] });
});
