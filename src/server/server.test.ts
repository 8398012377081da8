import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Ledger, StoredChange } from '#store/ledger';
import { openEvidence } from '#store/open-evidence';
import { openLedger } from '#store/open-ledger';
import type { ServerLimits } from './context.ts';
import { type RunningServer, startServer } from './start-server.ts';

const page = new Map([
  ['/index.html', { body: new TextEncoder().encode('<!doctype html>'), type: 'text/html; charset=utf-8', tag: '"t"' }],
]);
const document = {
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn small', category: 'smartphone' },
  parts: { lid: { name: 'lid' } },
};

let folder: string;
let ledger: Ledger;
let server: RunningServer;
const bugs: unknown[] = [];

const start = async (limits: Partial<ServerLimits> = {}): Promise<void> => {
  ({ ledger } = await openLedger({ folder }));
  const evidence = openEvidence(folder);
  const reportBug = (error: unknown) => bugs.push(error);
  server = await startServer({ ledger, evidence, page, port: 0, version: '0', limits, reportBug });
};
const end = async (): Promise<void> => {
  await server.stop();
  await ledger.close();
};

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'unfasten-server-'));
  bugs.length = 0;
  await start();
});
afterEach(async () => {
  await end();
  rmSync(folder, { recursive: true, force: true });
  expect(bugs).toEqual([]);
});

const at = '2026-03-02T09:00:00+01:00';
const post = (path: string, body: unknown, headers: Record<string, string> = {}): Promise<Response> =>
  fetch(new URL(path, server.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: typeof body === 'string' ? body : JSON.stringify(body),
  });
const begin = () => post('api/assessments', { change: randomUUID(), assessment: 'small', document, author: 'K.', at });
const change = (base: number, patch: unknown, id = randomUUID()) =>
  post('api/assessments/small/changes', { change: id, base, patch, author: 'K.', at });
const addPart = (name: string) => [{ op: 'add', path: `/parts/${name}`, value: { name } }];

/** A request with headers that `fetch` would not let through. */
const raw = (
  headers: Record<string, string>,
  { path = '/api/health', method = 'GET', body }: { path?: string; method?: string; body?: string } = {},
): Promise<{ status: number; text: string }> =>
  new Promise((resolve, reject) => {
    const sent = request({ host: '127.0.0.1', port: server.port, path, method, headers }, (answer) => {
      let text = '';
      answer.on('data', (piece) => {
        text += piece;
      });
      answer.on('end', () => resolve({ status: answer.statusCode ?? 0, text }));
    });
    sent.on('error', reject);
    sent.end(body);
  });

describe('who may call', () => {
  it.each([
    ['another name, as one rebound to this address', { host: 'bench.example:80' }],
    ['the right name with another port', { host: '127.0.0.1:1' }],
    ['an address that only looks alike', { host: '127.0.0.1.example' }],
    ['a foreign page', { origin: 'http://evil.example' }],
    ['a page from a file', { origin: 'null' }],
    ['our address over another scheme', { origin: 'https://127.0.0.1' }],
    ['a foreign site without an origin', { 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'no-cors' }],
  ])('%s is refused', async (_, headers) => {
    const { status, text } = await raw({ host: `127.0.0.1:${server.port}`, ...headers });
    expect([status, JSON.parse(text).status]).toEqual([403, 403]);
  });

  it('its own page, and a link from elsewhere, are let in', async () => {
    const host = `localhost:${server.port}`;
    expect((await raw({ host, origin: `http://${host}` })).status).toBe(200);
    const link = { host, 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': 'navigate' };
    expect((await raw(link, { path: '/' })).status).toBe(200);
  });

  it('a method or address that is not there is answered as a problem too', async () => {
    for (const [method, path] of [
      ['DELETE', 'api/assessments/small'],
      ['GET', 'api/nothing'],
      ['GET', 'assets/none.js'],
    ] as const) {
      const answer = await fetch(new URL(path, server.url), { method });
      expect([answer.status, answer.headers.get('content-type')]).toEqual([404, 'application/problem+json']);
    }
  });

  it('every answer forbids inline script, frames and guessing of types, errors too', async () => {
    for (const path of ['api/health', 'api/nothing', 'shelf']) {
      const { headers } = await fetch(new URL(path, server.url));
      expect(headers.get('content-security-policy')).toContain("script-src 'self'");
      expect(headers.get('content-security-policy')).toContain("frame-ancestors 'none'");
      expect(headers.get('x-content-type-options')).toBe('nosniff');
    }
  });
});

describe('what is taken', () => {
  it('a form of a foreign site, a compressed body, a large one and no JSON are refused with what to do', async () => {
    const answers = [
      await post('api/assessments', 'a=b', { 'content-type': 'application/x-www-form-urlencoded' }),
      await post('api/assessments', '{}', { 'content-encoding': 'gzip' }),
      await post('api/assessments', '{"x":', {}),
      await post('api/assessments', { change: 'no uuid' }),
    ];
    expect(answers.map(({ status }) => status)).toEqual([415, 415, 400, 400]);
    for (const answer of answers) expect(answer.headers.get('content-type')).toBe('application/problem+json');
    await end();
    await start({ bodyBytes: 1000 });
    expect((await post('api/assessments', 'x'.repeat(1001))).status).toBe(413);
    const deep = await post('api/assessments', '['.repeat(65));
    expect([deep.status, await deep.text()]).toEqual([400, expect.stringContaining('at most 64 deep')]);
  });

  it('a body without a stated length is cut off at the limit, a slow one at the deadline', async () => {
    await end();
    await start({ bodyBytes: 1000, bodyMilliseconds: 200 });
    const send = (pieces: readonly string[], pause: number): Promise<Response> =>
      fetch(new URL('api/assessments', server.url), {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        duplex: 'half',
        body: new ReadableStream({
          async pull(controller) {
            await new Promise((resolve) => setTimeout(resolve, pause));
            controller.enqueue(new TextEncoder().encode(pieces[0] ?? ''));
          },
        }),
      } as RequestInit);
    expect((await send(['y'.repeat(400)], 1)).status).toBe(413);
    expect((await send(['y'], 60)).status).toBe(408);
  });

  it('too many requests are told to wait', async () => {
    await end();
    await start({ requestBurst: 5, requestsPerSecond: 1 });
    const statuses: number[] = [];
    for (let count = 0; count < 8; count++) statuses.push((await fetch(new URL('api/health', server.url))).status);
    expect(statuses).toEqual([200, 200, 200, 200, 200, 429, 429, 429]);
  });

  it.each(['..%2f..%2fledger.sqlite', '%2e%2e', 'a%00b', 'x'.repeat(100)])('no path leads out: %s', async (name) => {
    expect([400, 404]).toContain((await fetch(new URL(`api/assessments/${name}`, server.url))).status);
    expect((await fetch(new URL(`api/evidence/${name}`, server.url))).status).toBe(404);
    const { status, text } = await raw({ host: `127.0.0.1:${server.port}` }, { path: `/assets/${name}` });
    expect([[200, 404].includes(status), text.includes('SQLite')]).toEqual([true, false]);
  });
});

describe('an assessment', () => {
  it('is begun, read, changed, taken back, and stands on the shelf', async () => {
    expect((await begin()).status).toBe(201);
    expect(await (await change(1, addPart('battery'))).json()).toMatchObject({ revision: 2, merged: false });
    const undo = { change: randomUUID(), undoes: 2, author: 'K.', at };
    expect(await (await post('api/assessments/small/undo', undo)).json()).toMatchObject({ revision: 3 });
    const head = await (await fetch(new URL('api/assessments/small', server.url))).json();
    expect(head).toMatchObject({ revision: 3, document });
    const { assessments } = await (await fetch(new URL('api/assessments', server.url))).json();
    expect(assessments).toMatchObject([{ assessment: 'small', product: 'Tarn small', revision: 3 }]);
  });

  it('counts a change sent twice once', async () => {
    await begin();
    const name = randomUUID();
    const first = await (await change(1, addPart('battery'), name)).json();
    const again = await (await change(1, addPart('battery'), name)).json();
    expect([first.repeated, again.repeated, again.revision]).toEqual([false, true, 2]);
  });

  it('merges what is disjoint and gives back both versions of what is not', async () => {
    await begin();
    await change(1, [{ op: 'replace', path: '/parts/lid/name', value: 'cover' }]);
    expect(await (await change(1, addPart('battery'))).json()).toMatchObject({ revision: 3, merged: true });
    const clash = await change(1, [{ op: 'replace', path: '/parts/lid/name', value: 'top' }]);
    expect(clash.status).toBe(409);
    expect(await clash.json()).toMatchObject({
      revision: 3,
      clashes: [{ path: '/parts/lid/name', base: 'lid', head: 'cover', wanted: 'top' }],
    });
  });

  it('refuses what is no record, with the place', async () => {
    await begin();
    const refused = await change(1, [{ op: 'add', path: '/parts/lid/colour', value: 'red' }]);
    expect(refused.status).toBe(422);
    expect(JSON.stringify(await refused.json())).toContain('colour');
  });
});

describe('followers', () => {
  const follow = async (headers: Record<string, string>, count: number): Promise<StoredChange[]> => {
    const aborting = new AbortController();
    const url = new URL('api/assessments/small/events', server.url);
    const answer = await fetch(url, { headers, signal: aborting.signal });
    const found: StoredChange[] = [];
    let text = '';
    for await (const piece of answer.body as unknown as AsyncIterable<Uint8Array>) {
      text += new TextDecoder().decode(piece);
      for (const line of text.split('\n').slice(0, -1))
        if (line.startsWith('data: ')) found.push(JSON.parse(line.slice(6)));
      text = text.slice(text.lastIndexOf('\n') + 1);
      if (found.length >= count) break;
    }
    aborting.abort();
    return found;
  };

  it('get what they missed, then what comes, each once and in order', async () => {
    await begin();
    await change(1, addPart('a'));
    const following = follow({ 'last-event-id': '1' }, 12);
    for (let base = 2; base < 13; base++) await change(base, addPart(`p${base}`));
    expect((await following).map(({ revision }) => revision)).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13]);
  });

  it('are told of a change within 300 ms', async () => {
    await begin();
    const following = follow({}, 1);
    await new Promise((resolve) => setTimeout(resolve, 300));
    const sent = performance.now();
    await change(1, addPart('a'));
    await following;
    expect(performance.now() - sent).toBeLessThan(300);
  });

  it('beyond the limit are turned away', async () => {
    await end();
    await start({ followers: 0 });
    await begin();
    expect((await fetch(new URL('api/assessments/small/events', server.url))).status).toBe(503);
  });

  it('are told which readings of a laboratory hold: at first, and when another edition is kept', async () => {
    await begin();
    const keep = (edition: number) => {
      const text = `format: unfasten/laboratory\nversion: 1\nid: quay\nname: Quay\nedition: ${edition}\ndate: 2026-11-25\ninterpretations: {}\n`;
      return post('api/laboratories', { text, author: 'M. R.', at: '2026-11-25T10:00:00+00:00' });
    };
    await keep(1);
    const following = follow({}, 2);
    await new Promise((resolve) => setTimeout(resolve, 200));
    const kept = performance.now();
    expect((await keep(2)).status).toBe(201);
    expect(await following).toMatchObject([1, 2].map((edition) => ({ id: 'quay', edition })));
    // Well before the next sign of life, at which every line looks anyway.
    expect(performance.now() - kept).toBeLessThan(5000);
  });

  it('are let go when the server ends', async () => {
    await begin();
    const answer = await fetch(new URL('api/assessments/small/events', server.url));
    const reading = answer.text();
    await server.stop();
    expect(await reading).toContain(': following');
  });
});

describe('evidence', () => {
  const put = (body: BodyInit, headers: Record<string, string> = {}) =>
    fetch(new URL('api/evidence', server.url), { method: 'PUT', body, headers });

  it('is kept under the SHA-256 of its bytes and given back byte for byte', async () => {
    // FIPS 180-4 example: SHA-256 of "abc".
    const abc = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
    expect(await (await put('abc')).json()).toEqual({ sha256: abc, bytes: 3, repeated: false });
    expect(await (await put('abc')).json()).toMatchObject({ repeated: true });
    const back = await fetch(new URL(`api/evidence/${abc}`, server.url));
    expect([await back.text(), back.headers.get('content-type')]).toEqual(['abc', 'application/octet-stream']);
  });

  it('is refused compressed and over the limit', async () => {
    expect((await put('abc', { 'content-encoding': 'gzip' })).status).toBe(415);
    await end();
    await start({ evidenceBytes: 10 });
    expect((await put('x'.repeat(11))).status).toBe(413);
  });
});
