import { expect, test } from 'vitest';
import { recomputeMismatches } from '#quantity/explained';
import { swapRules } from '#swaps/diagnosis/figures';
import { emptyVerdict } from '../../../test/fixtures/odd-verdicts.ts';
import { fixtureVerdict } from '../../../test/fixtures/verdict.ts';
import { fixtureSwaps } from '../../../test/fixtures/verdict-swaps.ts';
import { reportContext } from '../report-context.ts';
import { swapsSection } from './swaps-section.ts';

const markup = swapsSection(reportContext(fixtureVerdict)).body.text;
const text = markup.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ');

test('swapsSection says the verdict at the level tested, the explanation that stands and those excluded with their runs', () => {
  expect(text).toContain(fixtureSwaps.parts[0]?.words);
  expect(text).toContain('One explanation stands: pairing, reversible.');
  expect(text).toContain('bug, not mended, by swaps/camera-9');
  for (const { excluded, runs } of fixtureSwaps.parts)
    for (const id of excluded.flatMap(({ by }) => by))
      if (runs.some((run) => run.id === id)) expect(markup).toContain(`href="#swaps-${id}"`);
});

test('swapsSection says undecided as such, with everything that still stands', () => {
  const [, buzzer] = fixtureSwaps.parts;
  expect(buzzer?.standing.length).toBeGreaterThan(1);
  expect(text).toContain('Undecided. Still standing:');
  for (const { says } of buzzer?.standing ?? []) expect(text).toContain(says);
});

test('swapsSection has the part by firmware table with runs counted, own parts and steps apart, and no tick or cross', () => {
  expect(text).toContain('E5 E5 in 2 runs; 2 hosts own part: E0 in 6 runs after a step: E0 in 1 run');
  expect(text).toContain('E5, seen once E5 in 1 run; 1 host');
  expect(text).toContain('E5: a foreign part is refused while the rest of the device runs');
  expect(text).not.toMatch(/[✓✔✗✘☑☒×]/u);
});

test('swapsSection tells the lineage across firmware and since the predecessor, and what is left open', () => {
  expect(text).toContain(
    'carried over: E5 in 2 runs (2 hosts) on firmware 5.0.1; then E5 in 1 run (1 host) on firmware 5.1.0',
  );
  expect(text).toContain('Since the predecessor Tarn 4 :');
  expect(text).toContain('changed: Tarn 4: E2 in 2 runs (2 hosts) on firmware 5.0.1; then E5 in 1 run (1 host)');
  for (const { gaps } of fixtureSwaps.parts) for (const { words } of gaps) expect(text).toContain(words);
});

test('every figure of the swaps walks back to runs of the record and follows from them', () => {
  const trees = fixtureSwaps.parts.flatMap(({ effects }) =>
    effects.flatMap(({ shareOfUnits, fisher }) => [shareOfUnits, fisher].flatMap((tree) => tree ?? [])),
  );
  expect(trees.length).toBeGreaterThan(1);
  for (const tree of trees) expect(recomputeMismatches(tree, swapRules)).toEqual([]);
  expect(text).toContain('swaps/camera-5 ; evidence run-sheet');
});

test('swapsSection of a record without swaps says so', () => {
  expect(swapsSection(reportContext(emptyVerdict)).body.text).toBe(
    '<p>No part was swapped: what the software makes of foreign parts is not known.</p>',
  );
});
