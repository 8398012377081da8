import { type ChildProcess, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { openLedger } from '#store/open-ledger';
import { builtExecutable } from '../command-line.ts';
import { share } from '../share.ts';
import { temporaryFolder } from '../store-fixtures.ts';
import { SeededRandom } from './seeded-random.ts';

const root = temporaryFolder('server-kill');
const running = new Set<ChildProcess>();
afterAll(() => {
  for (const server of running) server.kill('SIGKILL');
  root.remove();
});

/** Starts `unfasten serve`; resolves with its address once it listens. */
const serve = async (data: string): Promise<{ readonly url: string; readonly server: ChildProcess }> => {
  const argv = [builtExecutable(), 'serve', '--data', data, '--port', '0', '--json', '--demo', 'examples/quick-log'];
  const server = spawn(process.execPath, argv, { stdio: ['ignore', 'pipe', 'ignore'] });
  running.add(server);
  server.once('close', () => running.delete(server));
  let out = '';
  for await (const piece of server.stdout ?? []) {
    out += String(piece);
    if (out.includes('}')) return { url: JSON.parse(out).url, server };
  }
  throw new Error('the server ended before it listened');
};

interface Sent {
  readonly change: string;
  readonly entry: string;
  /** The revision it is made against. */
  readonly base: number;
}

/** Sends one entry, as the page does: again under its own key until somebody answers. */
const send = async (sent: Sent, count: number, url: () => Promise<string>): Promise<number> => {
  const patch = [{ op: 'add', path: `/notes/${sent.entry}`, value: { text: `entry ${count}` } }];
  const body = JSON.stringify({
    change: sent.change,
    base: sent.base,
    patch,
    author: 'K.',
    at: '2026-03-02T09:00:00Z',
  });
  for (;;) {
    try {
      const answer = await fetch(`${await url()}api/assessments/quick-log/changes`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body,
      });
      if (answer.status === 200) return (await answer.json()).revision;
      if (answer.status !== 429) throw new RangeError(`${answer.status} ${await answer.text()}`);
    } catch (error) {
      if (error instanceof RangeError) throw error;
      // The server was killed; whether the entry got in is not known, so it is sent again.
    }
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
};

test('a client that logs while the server is killed again and again loses nothing and doubles nothing', {
  timeout: 3_600_000,
}, async () => {
  const kills = share(4, 200);
  const random = new SeededRandom(20_261_125);
  const data = join(root.path, 'data');
  let current = serve(data);
  const acknowledged = new Map<string, number>();
  let isOver = false;
  const logging = (async () => {
    // The map the entries go into: the example has none.
    const start = [{ op: 'add', path: '/notes', value: {} }];
    const { url } = await current;
    await fetch(`${url}api/assessments/quick-log/changes`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ change: randomUUID(), base: 1, patch: start, author: 'K.', at: '2026-03-02T09:00:00Z' }),
    });
    for (let [count, base] = [0, 2]; !isOver; count += 1) {
      const sent = { change: randomUUID(), entry: `n${count}`, base };
      base = await send(sent, count, async () => (await current).url);
      acknowledged.set(sent.entry, base);
    }
  })();
  for (let kill = 1; kill <= kills; kill += 1) {
    const { server } = await current;
    await new Promise((resolve) => setTimeout(resolve, 100 + random.below(600)));
    const closed = once(server, 'close');
    server.kill('SIGKILL');
    await closed;
    current = serve(data);
    await current;
  }
  isOver = true;
  await logging;
  const { server } = await current;
  const closed = once(server, 'close');
  server.kill('SIGTERM');
  const [code] = await closed;
  const { ledger, broken } = await openLedger({ folder: data });
  const { document } = await ledger.head('quick-log');
  const verification = await ledger.verify();
  await ledger.close();
  expect({ code, broken, sound: verification.sound }).toEqual({ code: 0, broken: [], sound: true });
  expect(Object.keys(document.notes ?? {}).sort()).toEqual([...acknowledged.keys()].sort());
  expect(acknowledged.size).toBeGreaterThan(kills);
  expect([...acknowledged.values()]).toEqual([...acknowledged.values()].sort((a, b) => a - b));
});
