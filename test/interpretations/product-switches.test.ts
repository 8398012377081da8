import { describe, expect, it } from 'vitest';
import { readingsOf } from '#verdict/index-bases';
import { letterOf } from '#verdict/letters';
import { scoreSheetX } from '../records/score-sheet-x.ts';
import { basisOf, smallRecord } from '../records/small-record.ts';

describe('switches of the product, on score sheets', () => {
  it('row 16: six and a half years are six, or between two rows of the table', () => {
    const record = scoreSheetX({ years: 6.5 });
    expect(basisOf(record, 'declared').figures.scores.SSU).toBe('3.00');
    expect(basisOf(record, 'declared', { 'part-years': 'as-stated' }).figures.scores.SSU).not.toBe('3.00');
  });

  it.each([
    ['listed', [null, '3.00', null]],
    ['orderable', ['3.00', '3.00', null]],
    ['delivered', ['3.00', '3.00', '3.00']],
  ])('row 18: spares that are %s, read as orderable, listed, delivered, earn %j', (how, expected) => {
    const record = scoreSheetX({ how });
    const score = (available: string) => basisOf(record, 'declared', { available }).figures.scores.SSP;
    expect([score('orderable'), score('listed'), score('delivered')]).toEqual(expected);
  });

  it('row 19: a folding display without a hinge takes the foldable weights, or not', () => {
    const record = scoreSheetX({ foldable: { foldingDisplay: true, hinge: false } });
    const folding = basisOf(record, 'declared').figures;
    const hinged = basisOf(record, 'declared', { foldable: 'hinge' }).figures;
    expect(Object.keys(folding.parts)).toContain('hinge');
    expect(Object.keys(hinged.parts)).not.toContain('hinge');
    expect(hinged.scores.SDD).toBe('2.60');
    expect(folding.scores.SDD).not.toBe('2.60');
  });

  it('row 20: 3.3475 is class C as computed and class B once rounded', () => {
    const record = scoreSheetX({ parts: { 'rear-camera': { steps: 5, fastener: 'reusable', tool: 'basic' } } });
    const { figures } = basisOf(record, 'declared');
    expect(figures.R).toBe('3.3475');
    const readings = readingsOf(record);
    expect(letterOf(figures, readings)).toBe('C');
    expect(letterOf(figures, { ...readings, rounding: 'rounded' })).toBe('B');
  });
});

const held = (part: string, tools: readonly string[], leaves: string) => ({
  kind: 'other',
  between: [part, 'chassis'],
  behind: [],
  ways: { off: { actions: [{ do: 'pry', tools }], leaves } },
});

describe('switches of instances and tools', () => {
  it('row 11: of two speakers the lowest is taken for each score, or one of them for all three', () => {
    const record = smallRecord({
      parts: {
        left: { role: 'speaker', behind: [], serialised: false },
        right: { role: 'speaker', behind: [], serialised: false },
      },
      fasteners: {
        a: held('left', [], 'reusable'),
        a2: held('left', ['mat'], 'reusable'),
        b: held('right', [], 'removable'),
      },
      spares: {
        kit: {
          name: 'Kit',
          replaces: ['left', 'right'],
          contents: { standing: 'established', fasteners: [], tools: [] },
        },
      },
      log: [
        ['pry', 'a'],
        ['pry', 'a2', ['mat']],
        ['lift', 'left'],
        ['pry', 'b'],
        ['lift', 'right'],
      ],
    });
    const points = (readings: Readonly<Record<string, string>> = {}) => {
      const { F, T } = basisOf(record, 'best', readings).figures.parts.speaker ?? {};
      return [F, T];
    };
    expect(points()).toEqual([1, 1]);
    // Equal steps; the left speaker lacks four points for its tool, the right one four for its fastener.
    expect(points({ 'duplicated-part': 'lowest-instance' })).not.toEqual([1, 1]);
  });

  it('row 12: a basic tool that is also on sale is basic, or only on sale', () => {
    const record = smallRecord({
      parts: { battery: { role: 'battery', behind: [], serialised: false } },
      fasteners: { a: held('battery', ['pick'], 'reusable') },
      log: [
        ['pry', 'a', ['pick']],
        ['lift', 'battery'],
      ],
    });
    const toolScoreOf = (reading: string) =>
      basisOf(record, 'best', { 'tool-in-several-classes': reading }).figures.parts.battery?.T;
    expect([toolScoreOf('best'), toolScoreOf('worst')]).toEqual([4, 1]);
  });
});
