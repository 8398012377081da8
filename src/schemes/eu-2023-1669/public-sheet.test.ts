import { describe, expect, it } from 'vitest';
import { feasibleValues, reachableSums } from './feasible-sums.ts';
import type { PriorityRole } from './input.ts';
import { partAddends, publishedHundredths, sheetConsequences } from './public-sheet.ts';
import { refuteSheet } from './refute-sheet.ts';
import { sheetStatements, stepsInWords } from './sheet-words.ts';

/** Every assignment written out: for each sum and part, the points that occur. */
const byEnumeration = (score: 'SDD' | 'SF') => {
  const addends = partAddends('non-foldable', score);
  const found = new Map<number, Set<number>[]>();
  const chosen: number[] = [];
  const visit = (index: number, sum: number): void => {
    const addend = addends[index];
    if (!addend) {
      const sets = found.get(sum) ?? addends.map(() => new Set<number>());
      if (!found.has(sum)) found.set(sum, sets);
      for (const [at, points] of chosen.entries()) sets[at]?.add(points);
      return;
    }
    for (const points of addend.values) {
      chosen[index] = points;
      visit(index + 1, sum + addend.weight * points);
    }
  };
  visit(0, 0);
  return { addends, found };
};

describe('feasibleValues', () => {
  it.each(['SF', 'SDD'] as const)('gives what writing out every assignment of %s gives, for every sum', (score) => {
    const { addends, found } = byEnumeration(score);
    expect(reachableSums(addends)).toEqual([...found.keys()].sort((a, b) => a - b));
    for (const [sum, sets] of found) {
      const expected = Object.fromEntries(addends.map(({ id }, at) => [id, [...(sets[at] ?? [])].sort()]));
      expect(feasibleValues(addends, new Set([sum]))).toEqual(expected);
    }
  });

  it('gives nothing for a sum that no assignment makes', () => {
    expect(Object.values(feasibleValues(partAddends('non-foldable', 'SDD'), new Set([443]))).flat()).toEqual([]);
  });
});

const sheet445 = sheetConsequences({ scores: { SDD: 445 } }, false);

describe('sheetConsequences', () => {
  it('forces battery and display to 5 steps or fewer each for SDD 4.45', () => {
    const points = sheet445.columns[0]?.scores.SDD.points;
    expect([points?.battery, points?.display]).toEqual([
      [4, 5],
      [4, 5],
    ]);
    expect(stepsInWords([4, 5])).toBe('5 steps or fewer');
    expect(sheetStatements(sheet445)[0]).toBe('SDD 4.45 forces the battery to 4 or 5 points (5 steps or fewer)');
  });

  it('forces nothing on a part of small weight where the rest can make up for it', () => {
    expect(sheet445.columns[0]?.scores.SDD.points.speaker).toEqual([1, 2, 3, 4, 5]);
  });

  it('tells a foldable from a figure off the non-foldable grid', () => {
    const { columns } = sheetConsequences({ scores: { SDD: 209 } }, undefined);
    expect(columns.map(({ column, feasible }) => [column, feasible])).toEqual([
      ['non-foldable', false],
      ['foldable', true],
    ]);
  });

  it('derives a missing score from R, under any way of rounding', () => {
    const scores = { SF: 350, ST: 340, SSP: 300, SSU: 500, SRI: 300 };
    const { columns } = sheetConsequences({ R: 334, scores }, false);
    // SDD 2.60 gives 3.3350, printed 3.34 half-up; SDD 2.65 gives 3.3475, printed 3.34 when cut.
    expect(columns[0]?.scores.SDD.values).toEqual([260, 265]);
    expect(sheetConsequences({ R: 333, scores }, false).columns[0]?.scores.SDD.values).toEqual([260]);
    expect(sheetConsequences({ R: 335, scores }, false).columns[0]?.scores.SDD.values).toEqual([265]);
  });

  it('names the ways of rounding that print the declared R, and a contradiction', () => {
    const scores = { SDD: 260, SF: 350, ST: 340, SSP: 300, SSU: 500, SRI: 300 };
    expect(sheetConsequences({ R: 334, scores }, false).roundings).toEqual(['half-up', 'half-even']);
    expect(sheetConsequences({ R: 333, scores }, false).roundings).toEqual(['cut']);
    const wrong = sheetConsequences({ R: 340, class: 'B', scores }, false);
    expect([wrong.roundings, wrong.columns[0]?.feasible, wrong.classes]).toEqual([[], false, ['C']]);
    expect(sheetStatements(wrong)).toEqual([
      'the six scores give R 3.3350, which no way of rounding prints as 3.40',
      'the class B does not follow from the figures, which give C',
      'no points of any parts give these figures',
    ]);
  });

  it('gives both classes where rounding decides', () => {
    const scores = { SDD: 265, SF: 350, ST: 340, SSP: 300, SSU: 500, SRI: 300 };
    expect(sheetConsequences({ scores }, false).classes).toEqual(['B', 'C']);
  });

  it('says what the rungs mean, a role by its words', () => {
    expect(sheetStatements(sheetConsequences({ scores: { SSP: 400 } }, false))).toEqual([
      'SSP 4.00 says: display, battery, back cover, front camera and rear camera to end users, the others to professionals',
    ]);
    expect(sheetStatements(sheetConsequences({ scores: { SSP: 200, SSU: 500, SRI: 100 } }, false))).toEqual([
      'SSP 2.00 says: display and battery to end users, the others to professionals',
      'SSU 5.00 says: seven years of updates or more',
      'SRI 1.00 says: everything to professionals, some of it at a reasonable fee',
    ]);
  });

  it('has no points for a rung that does not exist', () => {
    expect(sheetConsequences({ scores: { SSU: 400 } }, false).columns[0]?.feasible).toBe(false);
  });
});

describe('refuteSheet', () => {
  it('refutes SDD 4.45 by one battery of 9 steps, with the arithmetic', () => {
    expect(refuteSheet(sheet445, [{ role: 'battery', steps: 9 }])).toEqual([
      {
        score: 'SDD',
        roles: ['battery'],
        kind: 'worse',
        arithmetic: 'battery in 9 steps is 3 points: 0.30 × 3 + 0.70 × 5 = 4.40 < 4.45',
      },
    ]);
  });

  it('refutes nothing by a battery of 5 steps', () => {
    expect(refuteSheet(sheet445, [{ role: 'battery', steps: 5 }])).toEqual([]);
  });

  it('tells a count better than declared', () => {
    const [found] = refuteSheet(sheetConsequences({ scores: { SDD: 110 } }, false), [{ role: 'battery', steps: 2 }]);
    expect([found?.kind, found?.arithmetic]).toEqual([
      'better',
      'battery in 2 steps is 5 points: 0.30 × 5 + 0.70 × 1 = 2.20 > 1.10',
    ]);
  });

  it('refutes by counts that are possible alone but not together', () => {
    const four = (role: PriorityRole) => ({ role, steps: 4 });
    expect(refuteSheet(sheet445, [four('battery')])).toEqual([]);
    expect(refuteSheet(sheet445, [four('battery'), four('display')]).map(({ kind, roles }) => [kind, roles])).toEqual([
      ['jointly', ['battery', 'display']],
    ]);
  });

  it('takes the lowest of several counts of one role', () => {
    const counts = [
      { role: 'battery', steps: 4 },
      { role: 'battery', steps: 12 },
    ] as const;
    expect(refuteSheet(sheet445, counts)[0]?.arithmetic).toContain('battery in 12 steps');
    expect(refuteSheet(sheet445, [...counts].reverse())).toEqual(refuteSheet(sheet445, counts));
  });

  it('refutes fastener and tool classes', () => {
    const sheet = sheetConsequences({ scores: { SF: 480, ST: 480 } }, false);
    const found = refuteSheet(sheet, [{ role: 'display', fastener: 'resupplied', tool: 'with-spare' }]);
    expect(found.map(({ score, arithmetic }) => [score, arithmetic])).toEqual([
      ['SF', 'display with worst fastener resupplied is 3 points: 0.30 × 3 + 0.70 × 5 = 4.40 < 4.80'],
      ['ST', 'display with worst tool with-spare is 3 points: 0.30 × 3 + 0.70 × 5 = 4.40 < 4.80'],
    ]);
  });

  it('needs both weight columns refuted where the product may be foldable', () => {
    const sheet = sheetConsequences({ scores: { SDD: 450 } }, undefined);
    // In the foldable column the battery weighs 0.25: 0.25 × 3 + 0.75 × 5 = 4.50.
    expect(refuteSheet(sheet, [{ role: 'battery', steps: 9 }])).toEqual([]);
    expect(refuteSheet(sheet, [{ role: 'battery', steps: 12 }]).length).toBe(2);
  });
});

describe('publishedHundredths', () => {
  it.each([
    ['3,34', 334],
    ['3.34', 334],
    ['3.3', 330],
    ['3', 300],
    ['3,34/5', 334],
    ['0.5', undefined],
    ['3.345', undefined],
    ['', undefined],
  ])('reads %s', (text, expected) => expect(publishedHundredths(text)).toBe(expected));
});
