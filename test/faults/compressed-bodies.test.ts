import { createHash, randomUUID } from 'node:crypto';
import { brotliCompressSync, constants, deflateSync, gzipSync } from 'node:zlib';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openApiDocument } from '#server/app';
import { type RunningServer, startServer } from '#server/start-server';
import type { Ledger } from '#store/ledger';
import { openEvidence } from '#store/open-evidence';
import { openLedger } from '#store/open-ledger';
import { AT, newAssessment, temporaryFolder } from '../store-fixtures.ts';

const root = temporaryFolder('compressed');
const bugs: unknown[] = [];
let ledger: Ledger;
let server: RunningServer;

beforeAll(async () => {
  ({ ledger } = await openLedger({ folder: root.path }));
  await ledger.create(newAssessment());
  server = await startServer({
    ledger,
    evidence: openEvidence(root.path),
    page: new Map(),
    port: 0,
    version: '0',
    reportBug: (error) => bugs.push(error),
  });
});

afterAll(async () => {
  await server?.stop();
  await ledger?.close();
  root.remove();
  expect(bugs).toEqual([]);
});

/** Swells a thousandfold when unpacked. */
const BOMB = Buffer.alloc(20 * 1024 * 1024, 0x20);
const SQUEEZE: Readonly<Record<string, (bytes: Uint8Array) => Uint8Array<ArrayBuffer>>> = {
  gzip: (bytes) => new Uint8Array(gzipSync(bytes)),
  deflate: (bytes) => new Uint8Array(deflateSync(bytes)),
  br: (bytes) => new Uint8Array(brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 4 } })),
};
/** Made once: squeezing takes longer than refusing. */
const BOMBS = Object.fromEntries(Object.entries(SQUEEZE).map(([encoding, squeeze]) => [encoding, squeeze(BOMB)]));
/** Names of the same, of others, and of several at once (RFC 9110, section 8.4). */
const ENCODINGS = ['gzip', 'deflate', 'br', 'x-gzip', 'GZIP', 'zstd', 'identity, gzip', 'gzip, br'];

const head = { change: randomUUID(), author: 'K.', at: AT };
/** Every address that takes a body, with what it would take if it came as it is. */
const TAKE_BODIES: readonly (readonly [method: 'POST' | 'PUT', path: string, body: unknown])[] = [
  ['POST', 'api/assessments', { ...head, assessment: 'other', document: newAssessment().document }],
  [
    'POST',
    'api/assessments/tarn-5/changes',
    { ...head, base: 1, patch: [{ op: 'add', path: '/notes', value: { a: { text: 'x' } } }] },
  ],
  ['POST', 'api/assessments/tarn-5/undo', { ...head, undoes: 1 }],
  ['POST', 'api/rubrics', { any: 'edition' }],
  ['POST', 'api/laboratories', { any: 'edition' }],
  ['PUT', 'api/evidence', { any: 'bytes' }],
];

test('no address that takes a body is left out below', () => {
  const { paths = {} } = openApiDocument('0');
  const described = Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods ?? {}).flatMap(([method, { requestBody }]) =>
      requestBody === undefined ? [] : [`${method.toUpperCase()} ${path.slice(1).replace('{assessment}', 'tarn-5')}`],
    ),
  );
  const tried = TAKE_BODIES.map(([method, path]) => `${method} ${path}`);
  expect(described.length).toBeGreaterThan(2);
  expect(described.filter((address) => !tried.includes(address))).toEqual([]);
});

test.each(TAKE_BODIES)('%s %s refuses every compressed body as such, honest or a bomb', async (method, path, body) => {
  for (const encoding of ENCODINGS) {
    const kind = encoding.toLowerCase() in SQUEEZE ? encoding.toLowerCase() : 'gzip';
    for (const bytes of [SQUEEZE[kind]?.(Buffer.from(JSON.stringify(body))), BOMBS[kind]]) {
      const answer = await fetch(new URL(path, server.url), {
        method,
        headers: { 'content-type': 'application/json', 'content-encoding': encoding },
        body: bytes ?? null,
      });
      const { type, status } = (await answer.json()) as { type: string; status: number };
      expect([encoding, answer.status, status, type]).toEqual([
        encoding,
        415,
        415,
        'urn:unfasten:problem:encoded-body',
      ]);
    }
  }
  expect((await ledger.shelf()).map(({ assessment, revision }) => [assessment, revision])).toEqual([['tarn-5', 1]]);
  expect(await openEvidence(root.path).list()).toEqual([]);
});

/** A zip archive with one file in it that would be 20 MB unpacked (APPNOTE 6.3.9, sections 4.3.7, 4.3.12, 4.3.16). */
const zipBomb = (): Uint8Array<ArrayBuffer> => {
  const deflated = deflateSync(BOMB).subarray(2, -4);
  const name = Buffer.from('../../out.bin');
  const local = Buffer.alloc(30);
  local.writeUInt32LE(0x04034b50, 0);
  local.writeUInt16LE(20, 4);
  local.writeUInt16LE(8, 8);
  local.writeUInt32LE(deflated.length, 18);
  local.writeUInt32LE(BOMB.length, 22);
  local.writeUInt16LE(name.length, 26);
  const central = Buffer.alloc(46);
  central.writeUInt32LE(0x02014b50, 0);
  local.copy(central, 6, 4, 30);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(1, 8);
  end.writeUInt16LE(1, 10);
  end.writeUInt32LE(central.length + name.length, 12);
  end.writeUInt32LE(local.length + name.length + deflated.length, 16);
  return new Uint8Array(Buffer.concat([local, name, deflated, central, name, end]));
};

test.each([
  ['gzip', () => new Uint8Array(gzipSync(BOMB)), 'application/gzip'],
  ['zip', zipBomb, 'application/zip'],
] as const)('a %s file as evidence is kept and given back byte for byte, never unpacked', async (_, make, type) => {
  const bytes = make();
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const url = new URL('api/evidence', server.url);
  const taken = await fetch(url, { method: 'PUT', headers: { 'content-type': type }, body: bytes });
  expect([taken.status, await taken.json()]).toEqual([201, { sha256, bytes: bytes.length, repeated: false }]);
  const back = await fetch(new URL(`api/evidence/${sha256}`, server.url));
  expect([back.headers.get('content-encoding'), back.headers.get('content-type')]).toEqual([
    null,
    'application/octet-stream',
  ]);
  expect(Buffer.from(await back.arrayBuffer()).equals(Buffer.from(bytes))).toBe(true);
  expect(await openEvidence(root.path).list()).toContain(sha256);
});
