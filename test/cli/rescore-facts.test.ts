import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { requireAssessment } from '#cli/read-folder';
import { requireRubric } from '#cli/read-rubric-file';
import { routeFactsOf, routeHash, structureHash } from '#cli/rescore/facts-store';
import type { Assessment } from '#record/schema/assessment';
import { rubricFacts } from '#verdict/rubric/facts/rubric-facts';

const example = (name: string): Assessment =>
  requireAssessment(fileURLToPath(new URL(`../../examples/${name}`, import.meta.url))).assessment;

/** The same routes in a product with another name and other prices, without measures and without maker's information. */
const otherwise = ({ notes: _notes, measures: _measures, ...record }: Assessment): Assessment => ({
  ...record,
  product: { ...record.product, name: 'Another', price: '123 EUR' },
  ...(record.supply?.parts ? { supply: { parts: record.supply.parts } } : { supply: {} }),
  spares: Object.fromEntries(
    Object.entries(record.spares ?? {}).map(([id, spare]) => [id, { ...spare, price: '3 EUR' }]),
  ),
});

test.each(['tarn-4', 'gust-2'])('values kept for a route hash are those of every record with it: %s', (name) => {
  const record = example(name);
  const other = otherwise(record);
  const rubric = requireRubric(undefined);
  expect(routeHash(other)).toBe(routeHash(record));
  expect(structureHash(other)).not.toBe(structureHash(record));
  const [one, two] = [record, other].map((assessment) => routeFactsOf(rubricFacts({ assessment }, [rubric])));
  expect(two).toEqual(one);
  expect(Object.keys(one?.metrics ?? {}).length).toBeGreaterThan(5);
});

test('the route hash tells parts, spares and log apart', () => {
  const record = example('tarn-4');
  const { spares: _spares, ...without } = record;
  const { sessions: _sessions, ...unlogged } = record;
  expect(new Set([record, without, unlogged].map(routeHash)).size).toBe(3);
});
