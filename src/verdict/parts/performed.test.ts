import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import type { Assessment } from '#record/schema/assessment';
import { searchBest } from '#schemes/eu-2023-1669/bases/best-search';
import { groundworkOf, readingsOf } from '../index-bases.ts';
import { performedEndToEnd, reversibleOf } from './performed.ts';

const record = parse(
  readFileSync(new URL('../../../examples/tarn-4/assessment.yaml', import.meta.url), 'utf8'),
) as Assessment;
const { source, problems } = groundworkOf(record);

const routeTo = (part: string) => {
  const { shown } = searchBest(problems, { source, readings: readingsOf(record), part });
  if (shown.kind !== 'found') throw new Error(`tarn-4 shows a route to ${part}`);
  return shown.actions;
};

test('performedEndToEnd: a route whose actions stand in the log in its own order was performed', () => {
  expect(performedEndToEnd(source, 'battery', routeTo('battery'))).toEqual(['measured-a']);
});

test('performedEndToEnd: the same actions in another order are no performance of the route', () => {
  const [first, second, ...rest] = routeTo('battery');
  if (!first || !second) throw new Error('the route to the battery has several actions');
  expect(performedEndToEnd(source, 'battery', [second, first, ...rest])).toBeUndefined();
});

test('performedEndToEnd: another way of releasing a fastener than the logged one was not performed', () => {
  const route = routeTo('battery').map((action) =>
    action.kind === 'release' ? { ...action, way: 'another' } : action,
  );
  expect(performedEndToEnd(source, 'battery', route)).toBeUndefined();
});

test('reversibleOf: what was not put back is called by its name', () => {
  const route = routeTo('battery')
    .slice(0, 1)
    .map((action) => ({ ...action, subject: 'inner-clip' }));
  const nameOf = (id: string): string => `«${id}»`;
  const { shown, why } = reversibleOf(source, 'no-put-back-stated', { route, nameOf });
  expect(shown).toBe(false);
  expect(why).toBe('no entry puts back «inner-clip»');
});
