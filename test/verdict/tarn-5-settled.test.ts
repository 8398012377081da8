import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drained } from '#quantity/drained';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { openState } from '#verdict/bounds/open-state';
import { computeVerdict } from '#verdict/compute-verdict';
import { groundworkOf, readingsOf } from '#verdict/index-bases';
import { applyAnswer } from '#verdict/open/apply-answer';
import { type RankedQuestion, rankQuestions, spanOf } from '#verdict/questions/rank-questions';

const file = new URL('../../examples/tarn-5/assessment.yaml', import.meta.url);
const shipped = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;

const bestOf = (record: Assessment) => {
  const state = openState('best', groundworkOf(record), readingsOf(record));
  if (!state) throw new RangeError('nothing for best found');
  return state;
};

const firstQuestion = (record: Assessment): RankedQuestion | undefined => drained(rankQuestions(bestOf(record)))[0];

/** What the bench and the post would bring, as the demo's story has it. */
const BROUGHT: Readonly<Record<string, string>> = {
  'supply/software/functionality/years': '7',
  'spares/display-kit/contents': 'front-adhesive+cup+heat-mat',
  'parts/rear-camera/remoteAuthorisation': 'no',
};

const widthOf = (record: Assessment): number => {
  const { low = 0, high = 0 } = spanOf(bestOf(record));
  return high - low;
};

/** Answers whatever is asked first until the question is one of sight, and tells what was asked and how wide R was left. */
const upToSight = () => {
  let record = shipped;
  const steps = [{ asked: 'as shipped', width: widthOf(shipped) }];
  for (;;) {
    const [variable] = firstQuestion(record)?.variables ?? [];
    const answer = variable?.answers.find(({ id }) => id === BROUGHT[variable.id]);
    if (!variable || !answer) return { record, steps, last: variable };
    record = applyAnswer(record, answer);
    steps.push({ asked: variable.id, width: widthOf(record) });
  }
};

describe('tarn-5 as shipped', { timeout: 600_000 }, () => {
  it('has its letter open; each first question narrows it, and the last answer settles it but for the reading of rounding', () => {
    const { record, steps, last } = upToSight();
    expect(steps).toEqual([
      { asked: 'as shipped', width: 12_275 },
      { asked: 'supply/software/functionality/years', width: 6_275 },
      { asked: 'spares/display-kit/contents', width: 4_475 },
      { asked: 'parts/rear-camera/remoteAuthorisation', width: 4_350 },
    ]);
    expect(last?.id).toBe('parts/battery/behind');
    const settled = (sight: string) => {
      const answer = last?.answers.find(({ id }) => id === sight);
      if (!answer) throw new RangeError(`no answer ${sight}`);
      return applyAnswer(record, answer);
    };
    // 3.3475 was counted by hand (examples/tarn-5/by-hand.md): C as computed, B rounded to two decimals.
    const asShown = computeVerdict(settled('as-shown'), { recordDigest: '' }).bases.at(-1);
    expect([asShown?.basis, asShown?.figures.R, asShown?.low, asShown?.letter.state]).toEqual([
      'best',
      '3.3475',
      undefined,
      'interpretation-dependent',
    ]);
    expect([asShown?.figures.classUnrounded, asShown?.figures.classRounded]).toEqual(['C', 'B']);
    // Seen to come with the coil in, the battery takes a step less, and the letter is B in every rounding.
    const less = bestOf(settled('less')).index;
    expect([less.figures.R, less.low, less.figures.classUnrounded, less.figures.classRounded]).toEqual([
      '3.4225',
      undefined,
      'B',
      'B',
    ]);
  });
});
