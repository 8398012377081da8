import { describe, expect, test } from 'vitest';
import type { UnplacedProblem } from '../problem.ts';
import { checkAssessment } from './check-assessment.ts';

describe('a score sheet against the parts of the record', () => {
  const checked = (line: object, parts: object = {}): readonly UnplacedProblem[] =>
    checkAssessment({
      product: { name: 'Tarn 5', scoreSheet: { parts: line } },
      parts: { battery: { role: 'battery' }, ...parts },
    });
  const speakers = (...absent: readonly boolean[]): object =>
    Object.fromEntries(
      absent.map((gone, index) => [`s${index + 1}`, { role: 'speaker', ...(gone ? { absent: true } : {}) }]),
    );
  const said = { steps: 7, fastener: 'reusable', tool: 'basic' };

  test('a role declared absent of which a part is recorded: a warning that names both places', () => {
    expect(checked({ battery: { absent: true } })).toEqual([
      expect.objectContaining({
        path: ['product', 'scoreSheet', 'parts', 'battery', 'absent'],
        kind: 'contradiction',
        severity: 'warning',
        message: 'the score sheet says that there is no battery, yet parts/battery is one',
        remedy: expect.stringMatching(/^Correct the role of parts\/battery or the line; /),
      }),
    ]);
  });

  test('a role spoken of that the record knows to be absent: a warning that names both places', () => {
    expect(checked({ speaker: said }, speakers(true))).toEqual([
      expect.objectContaining({
        path: ['product', 'scoreSheet', 'parts', 'speaker'],
        kind: 'contradiction',
        severity: 'warning',
        message: 'the score sheet speaks of a speaker, yet parts/s1 says that the product has none',
        remedy: expect.stringMatching(/^Remove "absent" from parts\/s1, or write "absent" into the line; /),
      }),
    ]);
  });

  test.each<readonly [string, object, object]>([
    ['both say that there is none', { speaker: { absent: true } }, speakers(true)],
    ['both say that there is one', { speaker: said }, speakers(false)],
    ['one of two is absent, and the sheet speaks of the other', { speaker: said }, speakers(true, false)],
    ['the record has no part of the role', { speaker: said }, {}],
    ['the line says nothing', { speaker: {} }, speakers(true)],
  ])('nothing where %s', (_, line, parts) => {
    expect(checked(line, parts)).toEqual([]);
  });
});
