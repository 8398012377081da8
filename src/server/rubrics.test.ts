import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Ledger } from '#store/ledger';
import { openEvidence } from '#store/open-evidence';
import { openLedger } from '#store/open-ledger';
import { type RunningServer, startServer } from './start-server.ts';

const shipped = readFileSync(new URL('../../rubrics/quayside-general.yaml', import.meta.url), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'unfasten-rubrics-'));
let ledger: Ledger;
let server: RunningServer;

beforeAll(async () => {
  ({ ledger } = await openLedger({ folder }));
  const reportBug = (error: unknown) => {
    throw error;
  };
  server = await startServer({
    ...{ ledger, evidence: openEvidence(folder), page: new Map(), port: 0, version: '0', reportBug },
  });
});
afterAll(async () => {
  await server.stop();
  await ledger.close();
  rmSync(folder, { recursive: true, force: true });
});

const keep = async (text: string, path = 'api/rubrics') => {
  const body = JSON.stringify({ text, author: 'M. R.', at: '2026-11-25T19:00:00+00:00' });
  const headers = { 'content-type': 'application/json' };
  const response = await fetch(new URL(path, server.url), { method: 'POST', headers, body });
  return { status: response.status, type: response.headers.get('content-type'), said: await response.json() };
};
const get = async (path: string) => {
  const response = await fetch(new URL(path, server.url));
  return { status: response.status, said: await response.json() };
};

test('an edition is kept with its id and number from the text, listed, and read back whole', async () => {
  const { status, said } = await keep(shipped);
  expect([status, said.id, said.edition, said.author, 'text' in said]).toEqual([
    201,
    'quayside-general',
    1,
    'M. R.',
    false,
  ]);
  expect((await get('api/rubrics')).said).toEqual({ rubrics: [said] });
  expect((await get('api/rubrics/quayside-general/1')).said).toEqual({ ...said, text: shipped });
  expect((await get('api/rubrics/quayside-general/7')).status).toBe(404);
});

test('a text with faults is refused as a problem with every fault and its place', async () => {
  const faulty = shipped.replace('edition: 1', 'edition: one').replace('weight: 10', 'weight: 0');
  const { status, type, said } = await keep(faulty);
  expect([status, type]).toEqual([422, 'application/problem+json']);
  const places = said.faults.map(({ path, line, column }: Record<string, unknown>) => [path, Number(line) > 1, column]);
  expect(places).toEqual([
    ['edition', true, 10],
    ['criteria/battery-depth/weight', true, 13],
  ]);
});

test('a kept edition is never taken again with another text', async () => {
  const { status, said } = await keep(shipped.replace('weight: 10', 'weight: 11'));
  expect([status, said.faults[0].path]).toEqual([422, 'edition']);
  expect((await keep(shipped.replace('edition: 1', 'edition: 2'))).status).toBe(201);
});

test("a laboratory's readings are kept, listed and read back as rubrics are, and refused where one is none", async () => {
  const reading = '{ reading: by-itself, reason: a thing of its own, by: M. R., on: 2026-10-20 }';
  const text = `format: unfasten/laboratory
version: 1
id: quayside
name: Quayside Bench
edition: 1
date: 2026-11-01
interpretations:
  unplugging: ${reading}
`;
  const { status, said } = await keep(text, 'api/laboratories');
  expect([status, said.id, said.edition]).toEqual([201, 'quayside', 1]);
  expect((await get('api/laboratories')).said).toEqual({ laboratories: [said] });
  expect((await get('api/laboratories/quayside/1')).said).toEqual({ ...said, text });
  expect((await get('api/laboratories/quayside/2')).status).toBe(404);
  const faulty = await keep(text.replace('by-itself', 'by-itselves'), 'api/laboratories');
  expect([faulty.status, faulty.said.faults[0].path]).toEqual([422, 'interpretations/unplugging/reading']);
  expect((await keep(shipped, 'api/laboratories')).status).toBe(422);
});
