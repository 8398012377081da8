import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { computeVerdict } from '#verdict/compute-verdict';
import { reportContext } from '../report-context.ts';
import { interpretationsSection } from './interpretations.ts';

test('interpretationsSection prints every row of the table of ambiguities, those without a choice too', () => {
  const file = new URL('../../../examples/tarn-4/assessment.yaml', import.meta.url);
  const record = readAssessment({ fileName: 'assessment.yaml', bytes: readFileSync(file) }).assessment as Assessment;
  const { text } = interpretationsSection(reportContext(computeVerdict(record, { recordDigest: '' }))).body;
  const printed = new Set([...text.replace(/<[^>]+>/g, '').matchAll(/row ([\dnew]+),/g)].map(([, row]) => row));
  const numbered = Array.from({ length: 22 }, (_, index) => String(index + 1));
  expect(printed).toEqual(new Set([...numbered, 'new']));
});
