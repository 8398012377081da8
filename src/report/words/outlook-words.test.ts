import { expect, test } from 'vitest';
import type { OutlookQuestion } from '#verdict/outlook/outlook-question';
import { oddsWords, standingWords } from './outlook-words.ts';

const byOdds = (now: string, answered: string): string | undefined =>
  oddsWords({ chance: { now, answered } } as OutlookQuestion)[0];

test('oddsWords tells a chance that is not shown from a small one, and never rounds one up or to nothing', () => {
  expect(
    [
      ['0', '0'],
      ['0', '1/3'],
      ['1/2001', '1/3'],
      ['0.3333', '0.9999'],
      ['0.3333', '1'],
      ['0.5', '0.5'],
      ['0.33331', '0.33339'],
    ].map(([now = '', answered = '']) => byOdds(now, answered)),
  ).toEqual([
    'no chance is shown that a letter stated holds, with the answer no more than now',
    'the best letter to state then holds with a chance of at least 33.3 % instead of none shown',
    'the best letter to state then holds with a chance of at least 33.3 % instead of more than 0 % (shown: under 0.1 %)',
    'the best letter to state then holds with a chance of at least 99.9 % instead of at least 33.3 %',
    'the best letter to state then holds with a chance of 100 % instead of at least 33.3 %',
    'the best letter to state holds no more surely than now (at least 50.0 %)',
    'the best letter to state then holds a little more surely than now (at least 33.3 %)',
  ]);
});

test('standingWords says none in words, now and once all questions are answered', () => {
  expect([
    standingWords({ now: '0', allAnswered: '0' }, 2),
    standingWords({ now: '0', allAnswered: '1/2001' }, 1),
    standingWords({ now: '0.8', allAnswered: '1' }, 2),
  ]).toEqual([
    'By them no chance is shown that a letter stated now holds, nor once all 2 questions with odds are answered.',
    'By them no chance is shown that a letter stated now holds; once the question with odds is answered, the chance is more than 0 % (shown: under 0.1 %).',
    'By them the best letter to state now holds with a chance of at least 80.0 %; once all 2 questions with odds are answered, 100 %.',
  ]);
});
