import { expect, test } from 'vitest';
import { binds } from './goal-binds.ts';

test('binds: what was done for other goals alone binds nothing that came for its own', () => {
  expect(binds({ goals: ['camera'] }, 'battery', ['battery'])).toBe(false);
  expect(binds({ goals: ['camera', 'battery'] }, 'screen', ['battery'])).toBe(true);
});

test('binds: what was done for the very thing binds it whatever its entry was for, and no goal at all binds everything', () => {
  expect(binds({ goals: ['battery'] }, 'battery', ['camera'])).toBe(true);
  expect([
    binds({ goals: undefined }, 'battery', ['camera']),
    binds({ goals: ['camera'] }, 'battery', undefined),
  ]).toEqual([true, true]);
});
