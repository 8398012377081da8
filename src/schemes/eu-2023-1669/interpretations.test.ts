import { describe, expect, it } from 'vitest';
import { findExplained } from '#quantity/explained';
import { DEFAULT_COUNTING } from '#routes/steps/counting-rules';
import { deviceX, known, partFinding, updatesFor } from '../../../test/index-inputs.ts';
import { evaluateIndex } from './evaluate-index.ts';
import type { IndexInput } from './input.ts';
import {
  DEFAULT_INTERPRETATIONS,
  INTERPRETATION_TABLE,
  type Interpretations,
  resolveInterpretations,
  SWITCH_IDS,
} from './interpretations.ts';
import {
  classOfTool,
  countingRulesFor,
  isAvailable,
  pairingSteps,
  takesFoldableWeights,
  worstToolClass,
} from './readings.ts';

const readAs = (chosen: Partial<Interpretations>): Interpretations => ({ ...DEFAULT_INTERPRETATIONS, ...chosen });

describe('INTERPRETATION_TABLE', () => {
  it('has every row of the table of ambiguities, 1 to 22 and two new ones, each with question, clause and swing', () => {
    const rows = new Set(INTERPRETATION_TABLE.map(({ row }) => row));
    expect([...rows]).toEqual([...Array.from({ length: 22 }, (_, index) => String(index + 1)), 'new']);
    for (const { question, clause, swing, values, meanings } of INTERPRETATION_TABLE) {
      expect(Math.min(question.length, clause.length, swing.length)).toBeGreaterThan(0);
      expect(Object.keys(meanings).sort()).toEqual([...values].sort());
    }
  });

  it('has 17 switches with two values or more', () => {
    const switches = INTERPRETATION_TABLE.filter(({ kind }) => kind === 'switch');
    expect(switches.map(({ id }) => id).sort()).toEqual([...SWITCH_IDS].sort());
    expect([switches.length, Math.min(...switches.map(({ values }) => values.length))]).toEqual([17, 2]);
  });
});

describe('resolveInterpretations', () => {
  it('completes what was chosen with the defaults', () => {
    const { interpretations, problems } = resolveInterpretations({ rounding: 'rounded' });
    expect([interpretations, problems]).toEqual([readAs({ rounding: 'rounded' }), []]);
  });

  it('lists every choice that is none, and keeps the default there', () => {
    const { interpretations, problems } = resolveInterpretations({
      roundings: 'rounded',
      rounding: 'up',
      'update-years': '7',
      reheating: 'once-per-place',
    });
    expect(interpretations).toEqual(readAs({ reheating: 'once-per-place' }));
    expect(problems.map(({ id, problem }) => [id, problem])).toEqual([
      ['roundings', 'unknown-id'],
      ['rounding', 'unknown-value'],
      ['update-years', 'not-a-switch'],
    ]);
    expect(problems[1]?.allowed).toEqual(['unrounded', 'rounded']);
  });
});

describe('switches that decide in the arithmetic', () => {
  const speakers: IndexInput = {
    ...deviceX(),
    parts: {
      ...deviceX().parts,
      speaker: {
        absent: known(false),
        instances: [
          partFinding('speaker', [17, 'reusable', 'none'], { part: 'upper' }),
          partFinding('speaker', [2, 'removable', 'commercial'], { part: 'lower' }),
        ],
      },
    },
  };

  it('duplicated-part: lowest for each score, or one instance for all three', () => {
    const line = (reading: Interpretations['duplicated-part']) =>
      evaluateIndex(speakers, readAs({ 'duplicated-part': reading })).figures.parts.speaker;
    expect(line('lowest-per-parameter')).toEqual({ steps: 17, DD: 1, F: 1, T: 1 });
    // upper: 25 × 1 + 15 × 5 + 15 × 5 = 175; lower: 25 × 5 + 15 × 1 + 15 × 1 = 155.
    expect(line('lowest-instance')).toEqual({ steps: 2, DD: 5, F: 1, T: 1 });
  });

  it('duplicated-part: gives the steps of the instance that stands for all three', () => {
    const instances = [
      partFinding('speaker', [6, 'removable', 'commercial'], { part: 'upper' }),
      partFinding('speaker', [10, 'reusable', 'none'], { part: 'lower' }),
    ];
    const input = { ...speakers, parts: { ...speakers.parts, speaker: { absent: known(false), instances } } };
    const steps = (reading: Interpretations['duplicated-part']) =>
      evaluateIndex(input, readAs({ 'duplicated-part': reading })).figures.parts.speaker?.steps;
    expect([steps('lowest-per-parameter'), steps('lowest-instance')]).toEqual([10, 6]);
  });

  it('part-years: rounded down, or as stated and then between two rows', () => {
    const score = (years: number, reading: Interpretations['part-years']) =>
      evaluateIndex(deviceX({}, { updates: updatesFor(years) }), readAs({ 'part-years': reading })).figures;
    expect([score(6.5, 'down').scores.SSU, score(6.5, 'as-stated').scores.SSU]).toEqual(['3.00', null]);
    expect(score(6.5, 'as-stated').notScorable).toEqual([
      { what: 'SSU', why: '6.5 years, taken as stated, match no row of the table' },
    ]);
    expect(score(6, 'as-stated').scores.SSU).toBe('3.00');
  });

  it('part-years: says what was rounded down and by which reading, and nothing where nothing was', () => {
    const read = (years: number, reading: Interpretations['part-years']) => {
      const input = deviceX({}, { updates: updatesFor(years) });
      const { tree, figures } = evaluateIndex(input, readAs({ 'part-years': reading }));
      return { label: findExplained(tree, 'SSU/years')?.label, why: figures.notScorable[0]?.why };
    };
    const plain = 'years of updates guaranteed of all three kinds';
    expect(read(4.9, 'down')).toEqual({
      label: `${plain}: 4.9 years, rounded down to 4 (reading part-years: down)`,
      why: '4.9 years, rounded down to 4 (reading part-years: down); the table ends at 5',
    });
    expect(read(6.5, 'down').label).toBe(`${plain}: 6.5 years, rounded down to 6 (reading part-years: down)`);
    expect(read(4.9, 'as-stated')).toEqual({ label: plain, why: '4.9 years are guaranteed; the table ends at 5' });
    expect(read(6, 'down')).toEqual({ label: plain, why: undefined });
  });

  it('rounding: both classes always stand side by side', () => {
    const { figures } = evaluateIndex(deviceX({ 'rear-camera': [5, 'reusable', 'basic'] }), DEFAULT_INTERPRETATIONS);
    expect([figures.classUnrounded, figures.classRounded]).toEqual(['C', 'B']);
  });
});

describe('switches that prepare the input', () => {
  it('remote-pairing: two actions or one', () => {
    const both = { notifications: 1, authorisations: 1 };
    const steps = (reading: Interpretations['remote-pairing']) => pairingSteps(both, { 'remote-pairing': reading });
    expect([steps('two-actions'), steps('one-action')]).toEqual([10, 5]);
    expect(pairingSteps({ notifications: 1, authorisations: 0 }, { 'remote-pairing': 'one-action' })).toBe(5);
  });

  it('tool-in-several-classes: best or worst a tool fits, worst across tools', () => {
    const of = (reading: Interpretations['tool-in-several-classes']) =>
      classOfTool(['commercial', 'with-spare'], { 'tool-in-several-classes': reading });
    expect([of('best'), of('worst')]).toEqual(['with-spare', 'commercial']);
    expect(classOfTool([], DEFAULT_INTERPRETATIONS)).toBe('below-scale');
    expect([worstToolClass(['basic', 'with-spare', 'none']), worstToolClass([])]).toEqual(['with-spare', 'none']);
  });

  it('available: listed, orderable or delivered; shown less far than asked is open, refused is no', () => {
    const under = (available: Interpretations['available']) =>
      (['refused', 'listed', 'orderable', 'delivered'] as const).map((shown) => isAvailable(shown, { available }));
    expect(under('orderable')).toEqual([false, undefined, true, true]);
    expect(under('listed')).toEqual([false, true, true, true]);
    expect(under('delivered')).toEqual([false, undefined, undefined, true]);
  });

  it('foldable: folding display or hinge', () => {
    const facts = { foldingDisplay: false, hinge: true };
    expect(takesFoldableWeights(facts, { foldable: 'folding-display' })).toBe(false);
    expect(takesFoldableWeights(facts, { foldable: 'hinge' })).toBe(true);
  });

  it('rows 1 to 6: each switch turns on its own counting rule, and none is on by default', () => {
    expect(countingRulesFor(DEFAULT_INTERPRETATIONS)).toEqual(DEFAULT_COUNTING);
    const other = {
      'fasteners-as-parts': 'yes',
      unplugging: 'by-itself',
      'cleaning-after-release': 'counted',
      reheating: 'once-per-place',
      'holding-aids': 'tools',
      'first-pick-up': 'change',
      'bare-hands': 'change',
    } as const;
    const turned = Object.entries(other).map(([id, value]) => {
      const rules = countingRulesFor(readAs({ [id]: value }));
      return Object.entries(rules).flatMap(([rule, on]) => (on ? [rule] : []));
    });
    expect(turned).toEqual(Object.keys(DEFAULT_COUNTING).map((rule) => [rule]));
  });
});
