import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterAll, expect, test } from 'vitest';
import { openLedger } from '#store/open-ledger';
import { share } from '../share.ts';
import { temporaryFolder } from '../store-fixtures.ts';
import { SeededRandom } from './seeded-random.ts';

const root = temporaryFolder('kill');
afterAll(() => root.remove());

/** The writer in one file, since a process that compiles first would spend its time on that and not on writing. */
const bundledWriter = async (): Promise<string> => {
  const database = createRequire(import.meta.url).resolve('better-sqlite3');
  const outfile = join(root.path, 'writer.mjs');
  await build({
    entryPoints: [fileURLToPath(new URL('./ledger-writer.ts', import.meta.url))],
    outfile,
    bundle: true,
    format: 'esm',
    platform: 'node',
    alias: { 'better-sqlite3': database },
    external: [database],
    logLevel: 'error',
    banner: { js: "import{createRequire as r}from'node:module';const require=r(import.meta.url);" },
  });
  return outfile;
};
const writer = await bundledWriter();

/** Starts a writer, and kills it `milliseconds` after its first acknowledgement; gives the lines that came out whole. */
const killedWriter = async (folder: string, milliseconds: number, atWork?: () => Promise<void>) => {
  const child = spawn(process.execPath, [writer, folder], { stdio: ['ignore', 'pipe', 'pipe'] });
  let [out, err] = ['', ''];
  child.stdout.on('data', (chunk: Buffer) => {
    if (out === '') setTimeout(() => child.kill('SIGKILL'), milliseconds);
    out += chunk.toString();
  });
  child.stderr.on('data', (chunk: Buffer) => {
    err += chunk.toString();
  });
  const closed = once(child, 'close');
  if (atWork) {
    await once(child.stdout, 'data');
    await atWork();
  }
  const [, signal] = await closed;
  expect([signal, err]).toEqual(['SIGKILL', '']);
  return out.split('\n').slice(0, -1);
};

test('whatever was acknowledged before SIGKILL is there, and the chain holds', { timeout: 3_600_000 }, async () => {
  const folder = `${root.path}/killed`;
  const seed = 20261125;
  const random = new SeededRandom(seed);
  const acknowledged: string[] = [];
  for (let kill = 1; kill <= share(10, 200); kill += 1) {
    const milliseconds = random.below(80);
    acknowledged.push(...(await killedWriter(folder, milliseconds)));
    const { ledger, broken } = await openLedger({ folder });
    const stored = new Map<number, string>();
    for (let since = 0; ; ) {
      const page = await ledger.changes('tarn-5', since);
      for (const { revision, hash, change } of page) stored.set(revision, `${revision} ${hash} ${change}`);
      since = page.at(-1)?.revision ?? since;
      if (page.length === 0) break;
    }
    const lost = acknowledged.filter(
      (line) => stored.get(Number.parseInt(line, 10)) !== line.slice(0, line.lastIndexOf(' ')),
    );
    const where = `seed ${seed}, kill ${kill} after ${milliseconds} ms`;
    expect({ lost, broken }, where).toEqual({ lost: [], broken: [] });
    expect((await ledger.verify()).sound, where).toBe(true);
    await ledger.close();
  }
  expect(acknowledged.length).toBeGreaterThan(share(10, 200));
});

test('a folder another process writes in is refused, and free once that process was killed', async () => {
  const folder = `${root.path}/held`;
  await killedWriter(folder, 1_500, async () => {
    await expect(openLedger({ folder })).rejects.toMatchObject({ kind: 'in-use' });
    const { ledger } = await openLedger({ folder, readOnly: true });
    expect((await ledger.verify()).sound).toBe(true);
    await ledger.close();
  });
  const { ledger } = await openLedger({ folder });
  expect((await ledger.shelf())[0]?.revision).toBeGreaterThan(1);
  await ledger.close();
});
