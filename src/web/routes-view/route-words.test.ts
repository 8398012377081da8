import { expect, test } from 'vitest';
import { depthWords, timeWords, toolsWords } from './route-words.ts';

const line = {
  from: 1,
  to: 1,
  does: [],
  tools: [],
  fasteners: [],
  ended: '',
  inStretch: false,
  evidence: [],
};

test('depthWords says what is shown, what nothing excludes, and that nothing is shown', () => {
  expect([{ shown: 8 }, { shown: 8, atLeast: 6 }, { atLeast: 6 }, {}].map((depth) => depthWords({ depth }))).toEqual([
    '8',
    '6 to 8',
    'none shown, 6 or more',
    'no route',
  ]);
});

test('timeWords never gives a time that was not measured, and says how often it was', () => {
  expect(timeWords(line)).toEqual({ mean: 'not measured' });
  expect(timeWords({ ...line, seconds: 65, spread: { median: 65, low: 65, high: 65, n: 1 } })).toEqual({
    mean: 'mean 1:05',
    spread: 'measured once',
  });
  expect(timeWords({ ...line, seconds: 65, spread: { median: 60, low: 40, high: 95, n: 3 } }).spread).toBe(
    'median 1:00, 0:40 to 1:35, n 3',
  );
});

test('toolsWords names every set of further tools that would be enough', () => {
  const name = (tool: string) => tool.toUpperCase();
  expect(toolsWords({ part: 'b', steps: 1, proved: true, actions: [] }, name)).toBe('1 step');
  expect(toolsWords({ part: 'b', why: 'tools', addTools: [['a', 'b'], ['c']] }, name)).toBe(
    'not reached; enough with A and B, or with C as well',
  );
  expect(toolsWords({ part: 'b', why: 'nothing frees it', addTools: [] }, name)).toBe('not reached: nothing frees it');
});
