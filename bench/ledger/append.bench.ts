// How long until a change is acknowledged, against one flush of the same disk in the same run? A log of 1,000 entries is
// open; each change adds one entry, and after each a file beside the ledger is written and flushed. Target of the issue:
// at the 95th percentile no more than one flush + 3 ms. Usage: npm run bench -- ledger
import { randomUUID } from 'node:crypto';
import { closeSync, fdatasyncSync, mkdtempSync, openSync, rmSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openLedger } from '#store/open-ledger';
import { longLog } from '../check/long-log.ts';

const ENTRIES = 1_000;
const CHANGES = 500;
const WARM_UP = 100;
/** Bytes a commit of this size puts into the log: two pages and their heads. */
const FLUSHED_BYTES = 2 * (4096 + 24);
const AT = '2026-10-01T09:00:00+02:00';

const timed = async (work: () => unknown): Promise<number> => {
  const begun = performance.now();
  await work();
  return performance.now() - begun;
};

const share = (values: readonly number[], part: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(part * values.length))] ?? Number.NaN;

const rowOf = (name: string, values: readonly number[]): string =>
  `| ${name} | ${[0.5, 0.95, 0.99].map((part) => share(values, part).toFixed(2)).join(' | ')} |`;

const measure = async (
  folder: string,
): Promise<{ readonly appends: number[]; readonly flushes: number[]; readonly processor: number[] }> => {
  const { ledger } = await openLedger({ folder });
  const head = { assessment: 'tarn-5', author: 'J. K.', at: AT };
  await ledger.create({ ...head, change: randomUUID(), document: longLog(ENTRIES) });
  const [appends, flushes, processor]: [number[], number[], number[]] = [[], [], []];
  const plain = openSync(join(folder, 'plain'), 'w');
  for (let base = 1; base <= WARM_UP + CHANGES; base += 1) {
    const value = { at: 20_000 + base, do: 'unscrew', target: 'screws-1', tools: ['ph00'], took: 3, goal: 'part-1' };
    const patch = [{ op: 'add', path: `/sessions/x1/entries/n${base}`, value }] as const;
    const before = process.cpuUsage();
    const append = await timed(() => ledger.append({ ...head, change: randomUUID(), base, patch }));
    const { user, system } = process.cpuUsage(before);
    const flush = await timed(() => {
      writeSync(plain, Buffer.alloc(FLUSHED_BYTES));
      fdatasyncSync(plain);
    });
    if (base <= WARM_UP) continue;
    appends.push(append);
    flushes.push(flush);
    processor.push((user + system) / 1000);
  }
  closeSync(plain);
  await ledger.close();
  return { appends, flushes, processor };
};

const folder = mkdtempSync(join(tmpdir(), 'unfasten-append-'));
try {
  const { appends, flushes, processor } = await measure(folder);
  const over = share(appends, 0.95) - share(flushes, 0.95);
  console.log(`${CHANGES} changes, each adding an entry to a log of ${ENTRIES} and more [ms].\n`);
  console.log('| | p50 | p95 | p99 |\n|---|---|---|---|');
  console.log(rowOf('change acknowledged', appends));
  console.log(rowOf('one flush', flushes));
  console.log(rowOf('processor time of a change', processor));
  console.log(
    `\nAt p95 a change costs one flush and ${over.toFixed(2)} ms; target 3 ms: ${over <= 3 ? 'met' : 'MISSED'}.`,
  );
} finally {
  rmSync(folder, { recursive: true });
}
