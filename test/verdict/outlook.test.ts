import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { expectedRecord } from '#verdict/expectations/expected-record';
import { computeOutlook } from '#verdict/outlook/outlook';
import { spansOf } from '#verdict/outlook/spans';
import { SeededRandom } from '../faults/seeded-random.ts';
import { drawRecord } from './drawn-record.ts';

const drawnBy = (seed: number): (() => number) => {
  const stream = new SeededRandom(seed);
  return () => stream.below(2 ** 20) / 2 ** 20;
};

test('the conditional verdict names the ends that were found, where they are narrower than the width', {
  timeout: 600_000,
}, () => {
  let narrower = 0;
  for (let seed = 1; seed <= 40 && narrower < 1; seed++) {
    const { open } = drawRecord(drawnBy(1_100_000 + seed));
    const record = {
      ...open,
      expectations: {
        usual: { name: 'Nothing pairs', assumes: ['no-remote-pairing' as const] },
        nothing: { name: 'Nothing', assumes: [] },
      },
    };
    const spans = spansOf(record);
    for (const { basis, figures, conditional, expectations } of computeOutlook(record, { questions: false }).bases) {
      const { low, high } = figures.find(({ figure }) => figure === 'R') ?? {};
      const width = spans.find((span) => span.basis === basis);
      if (!low || !high || (low.bound === width?.low && high.bound === width?.high)) continue;
      narrower += 1;
      const between = low.bound === high.bound ? low.bound : `${low.bound} to ${high.bound}`;
      expect(conditional[0], `seed ${seed}, ${basis}`).toMatch(new RegExp(`else .*R ${between}|as without it`));
      // What holds on an expectation lies within what is possible; on one that assumes nothing, it is that.
      for (const { low: from = low.bound, high: to = high.bound } of expectations)
        expect([Number(from) >= Number(low.bound), Number(to) <= Number(high.bound)]).toEqual([true, true]);
      expect(conditional[1], `seed ${seed}, ${basis}`).toMatch(/, as without it\.$/);
    }
  }
  expect(narrower).toBeGreaterThan(0);
});

test('an expectation holds the same in whichever order it names what it assumes', () => {
  const file = new URL('../../examples/tarn-5/assessment.yaml', import.meta.url);
  const record = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;
  const assumes = ['announced-holds', 'unknown-supply-as-law-demands'] as const;
  const [one, other] = [assumes, assumes.toReversed()].map((list) =>
    expectedRecord(record, { name: 'Both', assumes: [...list] }),
  );
  expect(other).toEqual(one);
  expect(one?.supply?.software?.functionality).toMatchObject({ years: 7, standing: 'established' });
});
