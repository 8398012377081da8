import { expect, test } from 'vitest';
import type { Outlook } from '#verdict/outlook/outlook';
import type { InterpretationVerdict, ReadingChange } from '#verdict/verdict';
import { ruleEnds } from './rule-ends.ts';

const reading = (...changes: readonly ReadingChange[]): InterpretationVerdict => ({
  row: '1',
  id: 'a',
  kind: 'switch',
  question: '',
  value: 'no',
  isDefault: true,
  others: [{ value: 'yes', effect: 'in words', changesLetter: false, changes }],
});

test('ruleEnds marks the ends that another reading would move, on the basis where it would', () => {
  const readings = [
    reading(),
    reading(
      { basis: 'observed', low: { from: '2.5125', to: '2.4875' } },
      { basis: 'best', low: { from: '3.1000', to: '3.2000' }, high: { from: null, to: '3.2000' } },
      { basis: 'declared', letters: { from: ['C'], to: ['B'] } },
    ),
  ];
  expect(ruleEnds(['observed', 'best', 'declared'], undefined, readings)).toEqual([
    { basis: 'observed', low: { byReading: true }, high: { byReading: false } },
    { basis: 'best', low: { byReading: true }, high: { byReading: true } },
    { basis: 'declared', low: { byReading: false }, high: { byReading: false } },
  ]);
});

test('ruleEnds takes the ends of the outlook with how far they are proved, and the expectation where it has a number', () => {
  const expectation = { id: 'usual', name: 'As usual', letters: ['C'], mayBeNotScorable: false };
  const outlook: Outlook = {
    bases: [
      {
        basis: 'best',
        figures: [{ figure: 'R', low: { bound: '2.4200', exact: false }, high: { bound: '3.5575', exact: true } }],
        mayBeNotScorable: false,
        expectations: [{ ...expectation, low: '3.1225', high: '3.2000' }],
        conditional: [],
        withoutAnswers: [],
      },
    ],
    questions: [],
  };
  expect(ruleEnds(['best'], outlook, [])).toEqual([
    {
      basis: 'best',
      low: { R: '2.4200', kind: 'bound', byReading: false },
      high: { R: '3.5575', kind: 'exact', byReading: false },
      expected: { name: 'As usual', low: '3.1225', high: '3.2000' },
    },
  ]);
});
