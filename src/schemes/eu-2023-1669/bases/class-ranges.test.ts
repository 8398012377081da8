import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { deviceOf } from '#record/device/device';
import { experienceOf } from '#record/log/experience';
import { trialsOf } from '#record/log/trials';
import type { Assessment } from '#record/schema/assessment';
import type { RouteSource } from '#routes/problem/from-record';
import { DEFAULT_INTERPRETATIONS } from '../interpretations.ts';
import { fastenerRange, toolRange } from './class-ranges.ts';

const tarn5 = parse(
  readFileSync(new URL('../../../../examples/tarn-5/assessment.yaml', import.meta.url), 'utf8'),
) as Assessment;

const sourceOf = (assessment: Assessment): RouteSource => {
  const device = deviceOf(assessment);
  const [trials, experience] = [trialsOf(assessment, device), experienceOf(assessment, device)];
  return { assessment, device, trials, experience };
};

test('fastenerRange and toolRange: what is missing is told with the names of the record', () => {
  const named: Assessment = {
    product: tarn5.product,
    parts: { 'cell-1': { name: 'main cell' } },
    fasteners: { 'ring-9': { name: 'sealing ring', kind: 'clip', between: ['cell-1', 'frame'] } },
    tools: { 't-7': { name: 'ring key' } },
  } as unknown as Assessment;
  const source = sourceOf(named);
  const whats = (leaves: 'removable' | undefined) =>
    fastenerRange(source, { part: 'cell-1', fastener: 'ring-9', leaves }).missing.map(({ what }) => what);
  expect(whats(undefined)).toEqual(['in which class sealing ring is left when released']);
  expect(whats('removable')).toEqual(['whether sealing ring comes with the spare part for main cell at no extra cost']);
  const tool = toolRange(source, { part: 'cell-1', tool: 't-7' }, DEFAULT_INTERPRETATIONS);
  expect(tool.missing.map(({ what }) => what)).toEqual([
    'whether ring key is one of the sixteen basic tools',
    'whether ring key comes with the spare part for main cell',
    'whether ring key is supplied or offered free with the product',
    'whether the public can buy ring key, and its patents are licensed on fair terms or there are none',
  ]);
});

test('fastenerRange: a class seen at the bench rests on the evidence of the way and of the entries that took it', () => {
  const record = structuredClone(tarn5);
  const [session = '', entries] = Object.entries(record.sessions ?? {}).map(
    ([id, { entries: all }]) => [id, all] as const,
  )[0] ?? ['', {}];
  const screws = Object.entries(record.fasteners ?? {}).find(([id, { ways }]) => {
    const released = Object.values(entries ?? {}).some((entry) => entry.target === id || entry.released?.includes(id));
    return released && Object.keys(ways ?? {}).length === 1 && Object.values(ways ?? {})[0]?.leaves === 'reusable';
  });
  if (!screws) throw new Error(`session ${session} of tarn-5 releases a fastener left reusable`);
  const [fastener, { ways }] = screws;
  for (const way of Object.values(ways ?? {})) way.evidence = ['close-up'];
  for (const entry of Object.values(entries ?? {}))
    if (entry.target === fastener || entry.released?.includes(fastener)) entry.evidence = ['clip-of-it'];
  const evidence = (leaves: 'reusable' | 'destroyed') =>
    fastenerRange(sourceOf(record), { part: 'battery', fastener, leaves }).evidence;
  expect(evidence('reusable')).toEqual(expect.arrayContaining(['close-up', 'clip-of-it']));
  expect(evidence('destroyed')).toEqual([]);
});
