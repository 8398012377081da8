import { describe, expect, it } from 'vitest';
import { letterState } from './letters.ts';

describe('what becomes of the letter', () => {
  it.each([
    {
      given: 'one letter, every reading the same',
      letters: ['C'],
      mayBeNone: false,
      others: [['C'], ['C']],
      state: 'settled',
      shown: ['C'],
    },
    {
      given: 'one letter, another under another reading',
      letters: ['C'],
      mayBeNone: false,
      others: [['B']],
      state: 'interpretation-dependent',
      shown: ['B', 'C'],
    },
    { given: 'two letters', letters: ['B', 'C'], mayBeNone: false, others: [], state: 'open', shown: ['B', 'C'] },
    {
      given: 'one letter, but there may be no score',
      letters: ['C'],
      mayBeNone: true,
      others: [],
      state: 'open',
      shown: ['C'],
    },
    {
      given: 'below the scale whatever the rest',
      letters: [],
      mayBeNone: false,
      others: [[]],
      state: 'settled',
      shown: [],
    },
    {
      given: 'below the scale under this reading only',
      letters: [],
      mayBeNone: false,
      others: [['E']],
      state: 'interpretation-dependent',
      shown: ['E'],
    },
  ] as const)('$given: $state', ({ letters, mayBeNone, others, state, shown }) => {
    expect(letterState(letters, mayBeNone, others)).toEqual({ state, letters: shown });
  });
});
