import { describe, expect, it } from 'vitest';
import type { FastenerClass, ToolClass } from '../input.ts';
import type { ClassEnds } from './class-bounds.ts';
import { withinSums } from './sum-bounds.ts';

const range = <C extends string>(worst: C, best: C) => ({ worst, best, missing: [], evidence: [], why: '' });
const ends = (fastener: readonly [FastenerClass, FastenerClass], tool: readonly [ToolClass, ToolClass]): ClassEnds => ({
  fastener: range(...fastener),
  tool: range(...tool),
});
const classes = ({ fastener, tool }: ClassEnds) => [fastener.worst, fastener.best, tool.worst, tool.best];
const ANY = ends(['below-scale', 'reusable'], ['below-scale', 'none']);

describe('classes left by the sum of fastener and tool points', () => {
  it('a sum of 9 can only be reusable and basic', () => {
    expect(classes(withinSums(ANY, { lowest: 9, highest: 9 }))).toEqual(['reusable', 'reusable', 'basic', 'basic']);
  });

  it('a sum of 7 leaves 3 + 4 and 5 + 2, and with the fastener known one of them', () => {
    expect(classes(withinSums(ANY, { lowest: 7, highest: 7 }))).toEqual([
      'resupplied',
      'reusable',
      'with-product',
      'basic',
    ]);
    const known = ends(['resupplied', 'resupplied'], ['below-scale', 'none']);
    expect(classes(withinSums(known, { lowest: 7, highest: 7 }))).toEqual([
      'resupplied',
      'resupplied',
      'basic',
      'basic',
    ]);
  });

  it('every pair of classes with its sum inside stays', () => {
    const fastenerPoints = { removable: 1, resupplied: 3, reusable: 5 } as const;
    const toolPoints = { commercial: 1, 'with-product': 2, 'with-spare': 3, basic: 4, none: 5 } as const;
    const within = (name: string, [worst, best]: readonly string[], order: readonly string[]): boolean =>
      order.indexOf(name) >= order.indexOf(worst ?? '') && order.indexOf(name) <= order.indexOf(best ?? '');
    const fasteners = ['below-scale', ...Object.keys(fastenerPoints)];
    const tools = ['below-scale', ...Object.keys(toolPoints)];
    for (let lowest = 2; lowest <= 10; lowest++)
      for (let highest = lowest; highest <= 10; highest++) {
        const [fWorst, fBest, tWorst, tBest] = classes(withinSums(ANY, { lowest, highest })) as string[];
        for (const [fastener, f] of Object.entries(fastenerPoints))
          for (const [tool, t] of Object.entries(toolPoints)) {
            if (f + t < lowest || f + t > highest) continue;
            expect(within(fastener, [fWorst ?? '', fBest ?? ''], fasteners)).toBe(true);
            expect(within(tool, [tWorst ?? '', tBest ?? ''], tools)).toBe(true);
          }
      }
  });
});
