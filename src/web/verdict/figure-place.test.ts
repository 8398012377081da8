import { expect, test } from 'vitest';
import type { Explained } from '#quantity/explained';
import { stepsPath } from './figure-place.ts';

const node = (key: string, children: readonly Explained[] = []): Explained => ({
  id: key,
  label: key,
  value: { kind: 'open' },
  rule: { id: 'r', clause: '', formula: '' },
  inputs: [],
  missing: [],
  children,
});

test('stepsPath goes to the count of the only part of a role, and stops where several are weighed', () => {
  const battery = node('battery', [node('cell', [node('steps')])]);
  const speaker = node('speaker', [node('ear', [node('steps')]), node('main', [node('steps')])]);
  const tree = node('R', [node('SDD', [battery, speaker, node('hinge')])]);
  expect(['battery', 'speaker', 'hinge', 'display'].map((role) => stepsPath(tree, ['SDD', role]))).toEqual([
    ['SDD', 'battery', 'cell', 'steps'],
    ['SDD', 'speaker'],
    ['SDD', 'hinge'],
    undefined,
  ]);
});
