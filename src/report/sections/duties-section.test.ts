import { expect, test } from 'vitest';
import { emptyVerdict } from '../../../test/fixtures/odd-verdicts.ts';
import { fixtureVerdict } from '../../../test/fixtures/verdict.ts';
import { fixtureDuties } from '../../../test/fixtures/verdict-duties.ts';
import type { ReportExtras } from '../render-report.ts';
import { reportContext } from '../report-context.ts';
import { dutiesSection } from './duties-section.ts';

const textOf = (duties: typeof fixtureDuties) =>
  dutiesSection(reportContext({ ...fixtureVerdict, duties })).body.text.replace(/<[^>]+>/g, ' ');

test('dutiesSection says it is no advice, and no mark of its table is a tick or a cross', () => {
  const text = textOf(fixtureDuties);
  expect(text).toContain('Observations from the record, not legal advice.');
  expect(text).not.toMatch(/[✓✔✗✘☑☒×]/u);
});

test.each([
  ['memory', 'from memory, an editable default'],
  ['secondary', 'text not read: from texts about it'],
  ['summary', 'text not read: from the official summary'],
] as const)(
  'dutiesSection shows a row of mark %s with the words that its text was not read, whatever its state',
  (mark, words) => {
    const [first] = fixtureDuties;
    for (const state of ['met', 'not-met', 'not-shown', 'does-not-apply'] as const)
      expect(textOf(first ? [{ ...first, mark, state }] : [])).toContain(words);
  },
);

test('dutiesSection gives each state its words, what is missing, and the source', () => {
  const text = textOf(fixtureDuties);
  for (const words of ['met', 'not met', 'not shown', 'Does not apply']) expect(text).toContain(words);
  expect(text).toContain('missing:  whether this is so: receptacle always in reach and working');
  expect(text).toContain('Source: consolidated text of 20 June 2025.');
});

test('dutiesSection names from which days a duty holds beside those of the product, its condition and its facts', () => {
  const product = { name: 'Tarn 9', firstMade: '2026-08-10' } as NonNullable<ReportExtras['product']>;
  const [duty] = fixtureDuties;
  if (duty === undefined) throw new Error('no duty');
  const run = fixtureVerdict.swaps?.parts[0]?.runs[0]?.id ?? '';
  const duties = [{ ...duty, id: 'or-prevent', condition: 'a phone', facts: [`swaps/${run}`, 'parts/battery'] }];
  const { text } = dutiesSection(reportContext({ ...fixtureVerdict, duties }, { product })).body;
  expect(text).toContain('on condition: a phone');
  expect(text).toContain(
    'holds for: first made after 2025-01-01 (first made: 2026-08-10); first sold or used in US-OR after 2025-01-01 (first sold: not on record)',
  );
  expect(text).toContain(`facts: <a href="#swaps-${run}"><bdi>swaps/${run}</bdi></a>, <bdi>parts/battery</bdi>`);
});

test('dutiesSection of a verdict without duties says so', () => {
  expect(dutiesSection(reportContext(emptyVerdict)).body.text).toBe('<p>No duty was looked at.</p>');
});
