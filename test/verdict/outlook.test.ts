import { expect, test } from 'vitest';
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
      expectations: { usual: { name: 'Nothing pairs', assumes: ['no-remote-pairing' as const] } },
    };
    const spans = spansOf(record);
    for (const { basis, figures, conditional } of computeOutlook(record, { questions: false }).bases) {
      const { low, high } = figures.find(({ figure }) => figure === 'R') ?? {};
      const width = spans.find((span) => span.basis === basis);
      if (!low || !high || (low.bound === width?.low && high.bound === width?.high)) continue;
      narrower += 1;
      const between = low.bound === high.bound ? low.bound : `${low.bound} to ${high.bound}`;
      expect(conditional[0], `seed ${seed}, ${basis}`).toMatch(new RegExp(`else .*R ${between}|as without it`));
    }
  }
  expect(narrower).toBeGreaterThan(0);
});
