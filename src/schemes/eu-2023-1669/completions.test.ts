import { describe, expect, it } from 'vitest';
import { belowScale, deviceX, known, open, partFinding } from '../../../test/index-inputs.ts';
import { candidatesFor } from './completions.ts';
import { evaluateIndex } from './evaluate-index.ts';
import { isSettled } from './fill-open.ts';
import { indexWidth } from './index-width.ts';
import type { Finding, IndexInput, PartFinding } from './input.ts';
import { DEFAULT_INTERPRETATIONS } from './interpretations.ts';

const rOf = (input: IndexInput) => evaluateIndex(input, DEFAULT_INTERPRETATIONS).figures.R;

const withBattery = (more: Partial<PartFinding>, absent: Finding<boolean> = known(false)): IndexInput => ({
  ...deviceX(),
  parts: {
    ...deviceX().parts,
    battery: { absent, instances: [partFinding('battery', [8, 'resupplied', 'basic'], more)] },
  },
});

const ends = (input: IndexInput) => {
  for (const best of [false, true]) expect(candidatesFor(input, best).every(isSettled)).toBe(true);
  const { low, high, placesNotScorable } = indexWidth(input, DEFAULT_INTERPRETATIONS);
  return { low: low.R, high: high.R, places: placesNotScorable };
};

describe('the completions that indexWidth lies between', () => {
  it('leave a settled input as it is', () => {
    expect(ends(deviceX())).toEqual({ low: '3.3350', high: '3.3350', places: [] });
    for (const best of [false, true]) expect(candidatesFor(deviceX(), best)).toEqual([deviceX()]);
  });

  it('give an unknown fastener the whole scale, below it included', () => {
    // SF 2.90 and 4.10 in place of 3.50: R changes by 0.15 × 0.60 = 0.09 either way.
    const places = ['SF/battery'];
    expect(ends(withBattery({ fastener: open('f') }))).toEqual({ low: '3.2450', high: '3.4250', places });
  });

  it('keep to the bounds that an open finding carries', () => {
    const fastener = { ...open<never>('f'), worst: 'resupplied', best: 'reusable' } as Finding<
      'resupplied' | 'reusable'
    >;
    expect(ends(withBattery({ fastener }))).toEqual({ low: '3.3350', high: '3.4250', places: [] });
    const steps = { ...open<never>('s'), worst: 12, best: 6 } as Finding<number>;
    // One band lower, 2 in place of 3 points: 0.25 × 0.30 = 0.0750 less.
    expect(ends(withBattery({ steps }))).toEqual({ low: '3.2600', high: '3.3350', places: [] });
    const tool = { ...open<never>('t'), worst: 'below-scale', best: 'basic' } as Finding<'below-scale' | 'basic'>;
    expect(ends(withBattery({ tool }))).toEqual({ low: '3.2000', high: '3.3350', places: ['ST/battery'] });
  });

  it('take a part that may be absent as absent for the upper end, as there for the lower', () => {
    expect(ends(withBattery({}, open('absent')))).toEqual({ low: '3.3350', high: '3.6200', places: [] });
  });

  it('give a number where only the part that may be absent would be below the scale', () => {
    const input = withBattery({ tool: belowScale('the tool is sold to nobody') }, open('absent'));
    expect(ends(input)).toEqual({ low: '3.6200', high: '3.6200', places: ['ST/battery'] });
  });

  it('give no number where something known is below the scale', () => {
    const input = withBattery({ tool: belowScale('the tool is sold to nobody'), steps: open('s') });
    expect(ends(input)).toEqual({ low: null, high: null, places: ['SDD/battery'] });
  });

  it('stop open years at the whole years of what is known, whatever the reading of part-years', () => {
    const updates = { security: known(6.5), corrective: open<number>('c'), functionality: known(8) };
    const input = deviceX({}, { updates });
    expect(candidatesFor(input, true)[0]?.updates.corrective).toMatchObject({ value: 6 });
    expect(ends(input).places).toEqual(['SSU']);
  });

  it('take the weight column that gives the lower or the higher R where it is open', () => {
    const lines = { hinge: [20, 'removable', 'commercial'] } as const;
    const input = deviceX(lines, { foldable: open('foldable') });
    const columns = [false, true].map((foldable) => rOf({ ...input, foldable: known(foldable) }));
    expect(ends(input)).toMatchObject({ low: columns[1], high: columns[0] });
    expect(Number(columns[1])).toBeLessThan(Number(columns[0]));
  });
});
