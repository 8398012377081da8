import { describe, expect, it } from 'vitest';
import { deviceOf } from '../device/device.ts';
import type { Assessment, Entry } from '../schema/assessment.ts';
import { damageIndex, damageVerdictAt } from './damage-index.ts';
import { trialsOf } from './trials.ts';

type Damage = NonNullable<Assessment['damage']>[string];

const entries: Record<string, Entry> = {
  e1: { at: 10, do: 'unscrew', target: 'screws', tools: [], free: [] },
  e2: { at: 20, do: 'peel', target: 'foil' },
  e3: { at: 30, do: 'pry', target: 'lid' },
  e4: { at: 40, do: 'function-test' },
};

const withDamage = (damage: Partial<Damage>, log: Record<string, Entry> = entries): Assessment => ({
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Box', category: 'smartphone' },
  specimens: { a: {} },
  parts: { foil: { name: 'foil' }, lid: { name: 'lid' } },
  fasteners: { screws: { kind: 'screw', count: 2, between: ['lid', 'chassis'] } },
  sessions: {
    s: { kind: 'measured', specimen: 'a', start: '2026-01-01T10:00:00Z', startsAs: 'complete', entries: log },
  },
  damage: { crack: { what: 'crack', severity: 'function', session: 's', specimen: 'a', ...damage } },
});

const verdicts = (assessment: Assessment): Record<string, string> => {
  const index = damageIndex(assessment, deviceOf(assessment));
  return Object.fromEntries(
    ['e1', 'e2', 'e3', 'e4'].map((id) => [id, damageVerdictAt(index, `sessions/s/entries/${id}`)]),
  );
};

const ruling = 'route-damages-product' as const;

describe('damageIndex links a damage that no entry names', () => {
  const cases: readonly [string, Partial<Damage>, Record<string, string>][] = [
    ['one thing in the range bears the ruling', { after: 'e1', before: 'e2', ruling }, { e2: 'damaging' }],
    [
      'two things in the range are each undecided',
      { after: 'e1', before: 'e3', ruling },
      { e2: 'undecided', e3: 'undecided' },
    ],
    ['a slip of the hand binds nobody', { after: 'e1', before: 'e3', ruling: 'slip-of-hand' }, {}],
    ['without a ruling the one thing is undecided', { after: 'e2', before: 'e3' }, { e3: 'undecided' }],
    [
      'found later: the work on its subject',
      { found: 'e4', subject: 'lid', ruling },
      { e1: 'undecided', e3: 'undecided' },
    ],
    ['found later, one work on its subject', { found: 'e4', subject: 'foil', ruling }, { e2: 'damaging' }],
    ['found in the middle: nothing later', { found: 'e2', ruling }, { e1: 'undecided', e2: 'undecided' }],
    ['only the session known', { ruling }, { e1: 'undecided', e2: 'undecided', e3: 'undecided' }],
  ];
  it.each(cases)('%s', (_, damage, expected) => {
    expect(verdicts(withDamage(damage))).toEqual({ e1: 'whole', e2: 'whole', e3: 'whole', e4: 'whole', ...expected });
  });

  it('an entry that did something and names it bears it alone; a test that names it only found it', () => {
    const named = { ...entries, e2: { ...entries.e2, at: 20, damage: ['crack'] } };
    expect(verdicts(withDamage({ after: 'e1', before: 'e3', ruling }, named))).toMatchObject({
      e2: 'damaging',
      e3: 'whole',
    });
    const found = { ...entries, e4: { ...entries.e4, at: 40, damage: ['crack'] } };
    expect(verdicts(withDamage({ after: 'e2', before: 'e4', ruling }, found))).toMatchObject({
      e3: 'damaging',
      e4: 'whole',
    });
  });

  it('heat that names it bears it, a test of the very part does not', () => {
    const heated: Record<string, Entry> = { ...entries, e2: { at: 20, do: 'heat', target: 'foil', damage: ['crack'] } };
    expect(verdicts(withDamage({ after: 'e1', before: 'e3', ruling }, heated))).toMatchObject({ e2: 'damaging' });
    const tested: Record<string, Entry> = { ...entries, e4: { at: 40, do: 'test', target: 'foil', damage: ['crack'] } };
    expect(verdicts(withDamage({ after: 'e2', before: 'e4', ruling }, tested))).toMatchObject({
      e3: 'damaging',
      e4: 'whole',
    });
  });

  it('an entry that was corrected is found by its old id', () => {
    const corrected = { ...entries, e5: { ...entries.e2, at: 50, corrects: 'e2' } };
    expect(verdicts(withDamage({ after: 'e2', before: 'e3', ruling }, corrected))).toMatchObject({ e3: 'damaging' });
  });

  it('what may have come by damage is no trial', () => {
    const positives = (assessment: Assessment) =>
      trialsOf(assessment, deviceOf(assessment)).get('foil')?.positive.length;
    expect(positives(withDamage({ ruling: 'slip-of-hand', before: 'e3' }))).toBe(1);
    expect(positives(withDamage({ ruling, before: 'e3' }))).toBe(0);
  });
});
