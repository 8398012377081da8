import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { assessment } from '../schema/assessment.ts';
import { role } from '../schema/basics.ts';
import { PRIORITY_ROLES } from '../schema/priority-roles.ts';
import { checksOf, USUAL_CHECKS_SOURCE, usualCheckIds, usualChecksOf } from './function-checks.ts';

const record = (swapBench: object) =>
  assessment.parse({
    format: 'unfasten/assessment',
    version: 1,
    product: { name: 'Tarn 5' },
    parts: { cell: { role: 'battery' }, thing: {} },
    swapBench,
  });

test('usualChecksOf begins with the start and ends with notices, and tests something between for each priority part', () => {
  for (const each of PRIORITY_ROLES) {
    const ids = usualChecksOf(each).map(({ id }) => id);
    expect([ids.at(0), ids.at(-1)]).toEqual(['starts', 'notice']);
    expect(ids.length, each).toBeGreaterThanOrEqual(4);
  }
  expect(usualChecksOf(undefined).map(({ id }) => id)).toEqual(['starts', 'notice']);
});

test('usualChecksOf has words for every check of every role', () => {
  const known = new Set(usualCheckIds());
  for (const each of role.options)
    for (const check of usualChecksOf(each)) {
      expect(known.has(check.id), check.id).toBe(true);
      expect(check.name).not.toBe(check.id);
      expect(check.how).not.toBe('');
    }
});

test("checksOf takes the record's list and words where it has them", () => {
  const own = record({
    parts: { cell: { checks: ['pad', 'gauge'] } },
    checks: { pad: { name: 'charges on the pad' } },
  });
  expect(checksOf(own, 'cell')).toEqual([
    { id: 'pad', name: 'charges on the pad' },
    usualChecksOf('battery').find(({ id }) => id === 'gauge'),
  ]);
  expect(checksOf(record({}), 'cell')).toEqual(usualChecksOf('battery'));
  expect(checksOf(record({}), 'thing')).toEqual(usualChecksOf(undefined));
});

test('the page of the method prints the lists as they are, and that nobody published them', () => {
  const page = readFileSync(new URL('../../../docs/method/function-lists.md', import.meta.url), 'utf8');
  expect(page).toContain(USUAL_CHECKS_SOURCE);
  for (const each of role.options) {
    const checks = usualChecksOf(each);
    const ids = checks.slice(1, -1).map(({ id }) => `\`${id}\``);
    if (ids.length > 0) expect(page).toContain(`| \`${each}\` | ${ids.join(', ')} |\n`);
    for (const { id, name, how } of checks) expect(page).toContain(`| \`${id}\` | ${name} | ${how} |\n`);
  }
});
