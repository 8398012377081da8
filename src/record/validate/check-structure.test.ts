import { describe, expect, test } from 'vitest';
import { limits } from '../limits.ts';
import { checkAssessment } from './check-assessment.ts';

describe('parts that carry one another', () => {
  /** As many parts as said, each within the next; the last within `end`. */
  const chain = (length: number, end?: string): object => ({
    parts: Object.fromEntries(
      Array.from({ length }, (_, index) => {
        const within = index + 1 < length ? `p${index + 1}` : end;
        return [`p${index}`, within === undefined ? {} : { within }];
      }),
    ),
  });

  test('in a chain as long as the limit are no problem; one longer is refused where it begins, with the limit', () => {
    expect(checkAssessment(chain(limits.carriers))).toEqual([]);
    for (const length of [limits.carriers + 1, 70, 1000])
      expect(checkAssessment(chain(length))).toEqual([
        expect.objectContaining({
          path: ['parts', 'p0', 'within'],
          value: 'p1',
          severity: 'error',
          message: `parts carry one another in a longer chain than a device may have (limit carriers: ${limits.carriers})`,
          remedy: 'Name the part that carries it on the bench, not every part around it.',
        }),
      ]);
  });

  test('in a circle are a circle and no chain', () => {
    const problems = checkAssessment(chain(3, 'p0'));
    expect(problems.map(({ kind }) => kind)).toEqual(['cycle']);
  });
});
