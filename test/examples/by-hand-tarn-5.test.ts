import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parse } from 'yaml';
import { deviceOf } from '#record/device/device';
import { experienceOf } from '#record/log/experience';
import { trialsOf } from '#record/log/trials';
import { assessment } from '#record/schema/assessment';
import { flatAtoms, type SequenceItem } from '#routes/sequence/bench-sequence';
import { declaredItems, procedureFor } from '#routes/sequence/declared';
import { observedSequence } from '#routes/sequence/observed';
import { DEFAULT_COUNTING } from '#routes/steps/counting-rules';
import { countSteps } from '#routes/steps/step-counter';

const record = assessment.parse(
  parse(readFileSync(new URL('../../examples/tarn-5/assessment.yaml', import.meta.url), 'utf8'), { maxAliasCount: 0 }),
);
const device = deviceOf(record);
const source = {
  assessment: record,
  device,
  trials: trialsOf(record, device),
  experience: experienceOf(record, device),
};
const aids = new Set(Object.entries(record.tools ?? {}).flatMap(([id, tool]) => (tool.holdingAid ? [id] : [])));
const count = (items: readonly SequenceItem[]): number =>
  countSteps(flatAtoms(items).atoms, DEFAULT_COUNTING, aids).total;

// The tables "Observed" and "Declared" of examples/tarn-5/by-hand.md, counted on paper before the program counted.
const OBSERVED = {
  battery: 14,
  display: 13,
  'back-cover': 3,
  'rear-camera': 9,
  'front-camera': 9,
  'charging-port': 12,
  button: 10,
  microphone: 10,
  'main-speaker': 9,
  'ear-speaker': 10,
};
const DECLARED = {
  battery: 10,
  display: 12,
  'back-cover': 3,
  'front-camera': 8,
  'rear-camera': 8,
  'charging-port': 10,
  button: 8,
  microphone: 9,
  'main-speaker': 8,
  'ear-speaker': 10,
};

it.each(Object.entries(OBSERVED))('%s is observed in %i steps, as counted on paper', (part, steps) => {
  const found = observedSequence(source, part, { reach: 'pessimistic', keepAll: false, fewest: count });
  expect(found && count(found.items)).toBe(steps);
});

it.each(Object.entries(DECLARED))('%s is declared in %i steps, as counted on paper', (part, steps) => {
  const found = procedureFor(source, part);
  expect(found && count(declaredItems(source, ...found))).toBe(steps);
});
