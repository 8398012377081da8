import fc from 'fast-check';
import { expect, it } from 'vitest';
import { productDraw, readingsDraw, seenInput, trueInput } from '../../../test/index-arbitraries.ts';
import { evaluateIndex } from './evaluate-index.ts';
import { indexWidth } from './index-width.ts';
import { SCORES } from './weights.ts';

const RUNS = process.env.UNFASTEN_DEEP ? 4000 : 400;

const below = (a: string | number | null, b: string | number | null): boolean => Number(a) <= Number(b);

it('holds the true R, scores and points, or says that there may be none', () => {
  let [scored, unscored] = [0, 0];
  fc.assert(
    fc.property(productDraw, readingsDraw, (drawn, readings) => {
      const truth = evaluateIndex(trueInput(drawn), readings).figures;
      const width = indexWidth(seenInput(drawn), readings);
      const places = new Set([...width.low.notScorable.map(({ what }) => what), ...width.placesNotScorable]);
      for (const { what } of truth.notScorable) expect(places).toContain(what);
      if (truth.R === null) unscored++;
      else {
        scored++;
        expect([width.low.R, truth.R, width.high.R].every((r) => r !== null)).toBe(true);
        expect(below(width.low.R, truth.R) && below(truth.R, width.high.R)).toBe(true);
      }
      for (const score of SCORES) {
        const value = truth.scores[score];
        if (value === null) continue;
        expect(below(width.low.scores[score], value)).toBe(true);
        const high = width.high.scores[score];
        expect({ score, value, high, within: high !== null && below(value, high) }).toMatchObject({ within: true });
      }
      for (const [role, figures] of Object.entries(truth.parts))
        for (const key of ['DD', 'F', 'T'] as const) {
          const value = figures[key];
          if (value === null) continue;
          expect(below(width.low.parts[role]?.[key] ?? null, value)).toBe(true);
          expect(below(value, width.high.parts[role]?.[key] ?? null)).toBe(true);
        }
    }),
    { numRuns: RUNS, seed: 20260510 },
  );
  expect(scored).toBeGreaterThan(RUNS / 10);
  expect(unscored).toBeGreaterThan(RUNS / 10);
});

it('is the index itself, twice, when nothing is open', () => {
  fc.assert(
    fc.property(productDraw, readingsDraw, (drawn, readings) => {
      const input = trueInput(drawn);
      const { figures } = evaluateIndex(input, readings);
      const { low, high, includesNotScorable } = indexWidth(input, readings);
      expect([low, high, includesNotScorable]).toEqual([figures, figures, false]);
    }),
    { numRuns: RUNS / 4, seed: 1 },
  );
});
