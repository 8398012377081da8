import { describe, expect, it } from 'vitest';
import { type LettersLeft, letterState } from './letters.ts';

const left = (...letters: readonly string[]): LettersLeft => ({ letters, mayBeNotScorable: false });

describe('what becomes of the letter', () => {
  it.each([
    {
      given: 'one letter, every reading the same',
      letters: ['C'],
      mayBeNone: false,
      others: [left('C'), left('C')],
      state: 'settled',
      shown: ['C'],
    },
    {
      given: 'one letter, another under another reading',
      letters: ['C'],
      mayBeNone: false,
      others: [left('B')],
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
      others: [left()],
      state: 'settled',
      shown: [],
    },
    {
      given: 'below the scale under this reading only',
      letters: [],
      mayBeNone: false,
      others: [left('E')],
      state: 'interpretation-dependent',
      shown: ['E'],
      none: true,
    },
    {
      given: 'one letter, and perhaps no score under another reading',
      letters: ['B'],
      mayBeNone: false,
      others: [left('B'), { letters: ['B'], mayBeNotScorable: true }],
      state: 'interpretation-dependent',
      shown: ['B'],
      none: true,
    },
    {
      given: 'one letter, and below the scale under another reading',
      letters: ['B'],
      mayBeNone: false,
      others: [left()],
      state: 'interpretation-dependent',
      shown: ['B'],
      none: true,
    },
  ])('$given: $state', ({ letters, mayBeNone, others, state, shown, none }) => {
    expect(letterState({ letters, mayBeNotScorable: mayBeNone }, others)).toEqual({
      state,
      letters: shown,
      ...(none ? { orNotScorable: true } : {}),
    });
  });
});
