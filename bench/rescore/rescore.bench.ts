// Rescores an archive of varied records, cold and warm, against bare JSON parsing of the same files and against a bare loop
// over two threads; then the memory of one in a process of its own at a tenth and at the whole size.
// UNFASTEN_BENCH_RECORDS sets the size (10,000), for machines that other work keeps busy.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { requireRubric } from '#cli/read-rubric-file';
import { findAssessments } from '#cli/rescore/find-assessments';
import { rescoreArchive } from '#cli/rescore/rescore-archive';
import type { RescoreSettings } from '#cli/rescore/rescore-items';
import { readEarlier } from '#cli/rescore/results-file';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import { makeArchive } from './make-archive.ts';

const SEED = 20_261_125;
const records = Number(process.env.UNFASTEN_BENCH_RECORDS ?? 10_000);
const before = requireRubric(undefined);

/** An edition with other weights and one other scale: a new one every call, so that no result is there already. */
const edition = (number: number): Rubric => {
  const [first = '', second = ''] = Object.keys(before.criteria);
  const criteria = Object.fromEntries(
    Object.entries(before.criteria).map(([id, item]) => {
      const weight = id === first ? 10 + number : id === second ? 3 : item.weight;
      const scale =
        id === 'information'
          ? {
              line: [
                { at: 0, points: 0 },
                { at: 11, points: 90 },
              ],
            }
          : item.scale;
      return [id, { ...item, weight, scale }];
    }),
  );
  return { ...before, edition: number, criteria } as Rubric;
};

interface Timed {
  readonly seconds: number;
  readonly rate: number;
}

const timed = async (work: () => unknown, count = records): Promise<Timed> => {
  const start = performance.now();
  await work();
  const seconds = (performance.now() - start) / 1000;
  return { seconds, rate: count / seconds };
};

const rescoreBy = async (
  archive: string,
  { out, number, workers }: { readonly out: string; readonly number: number; readonly workers: number },
): Promise<void> => {
  const request = { archive, before, after: edition(number), byCriterion: false, out, workers };
  const { close } = await rescoreArchive(request, () => undefined);
  close();
};

/** Two threads, half of the tasks each, given at the start; starting them counts, as it does in the run beside it. */
const bareLoop = async (archive: string, out: string, number: number): Promise<Timed> => {
  const tasks = findAssessments(archive, out).map((item) => ({ item: item.item, before: item }));
  const settings: RescoreSettings = {
    before,
    after: edition(number),
    byCriterion: false,
    factsFolder: join(out, 'facts'),
    known: new Set(),
    structures: readEarlier(out, '').structures,
  };
  const loader = new URL('index.mjs', pathToFileURL(createRequire(import.meta.url).resolve('tsx/esm/api'))).href;
  const source = new URL('./bare-worker.ts', import.meta.url).href;
  const start = `import(${JSON.stringify(loader)}).then(({ register }) => { register(); return import(${JSON.stringify(source)}); })`;
  const heard = (worker: Worker): Promise<unknown> =>
    new Promise((resolve, reject) => {
      worker.once('message', resolve);
      worker.once('error', reject);
    });
  return timed(async () => {
    const workers = [0, 1].map(
      (half) =>
        new Worker(start, {
          eval: true,
          execArgv: [],
          workerData: { settings, tasks: tasks.filter((_, index) => index % 2 === half) },
        }),
    );
    await Promise.all(workers.map(heard));
    await Promise.all(workers.map((worker) => worker.terminate()));
  });
};

/** Highest resident memory of a process of its own that rescores once [MB]. */
const memoryOf = (archive: string, out: string): number => {
  const run = spawnSync(process.execPath, ['--import', 'tsx', fileURLToPath(import.meta.url), archive, out], {
    encoding: 'utf8',
  });
  return Number(run.stdout.trim().split('\n').at(-1)) / 1024;
};

const compareAll = async (): Promise<void> => {
  const folder = mkdtempSync(join(tmpdir(), 'unfasten-bench-rescore-'));
  try {
    const [archive, tenth, out, outTenth] = ['archive', 'tenth', 'out', 'out-tenth'].map((name) => join(folder, name));
    makeArchive(String(archive), records, SEED);
    makeArchive(String(tenth), Math.ceil(records / 10), SEED);
    const files = findAssessments(String(archive), String(out)).map(({ file }) => file);
    const at = (number: number, workers: number) => () =>
      rescoreBy(String(archive), { out: String(out), number, workers });
    const cold = await timed(at(2, 2));
    const parse = await timed(() => files.forEach((file) => void JSON.parse(readFileSync(file, 'utf8'))));
    const warm = await timed(at(3, 1));
    const two = await timed(at(4, 2));
    const bare = await bareLoop(String(archive), String(out), 5);
    const again = await timed(at(4, 1));
    await rescoreBy(String(tenth), { out: String(outTenth), number: 2, workers: 1 });
    const [small, large] = [memoryOf(String(tenth), String(outTenth)), memoryOf(String(archive), String(out))];
    const row = (name: string, { seconds, rate }: Timed) =>
      `| ${name} | ${seconds.toFixed(1)} | ${rate.toFixed(0)} | ${(seconds / parse.seconds).toFixed(2)} |`;
    console.log(
      [
        `${records} records varied from the examples, seed ${SEED}; two rubrics that differ in weights and scales.`,
        '',
        '| run | s | records a second | times bare parsing |',
        '|---|---|---|---|',
        row('bare: read and `JSON.parse` every file', parse),
        row('cold: nothing kept, two workers', cold),
        row('warm: facts kept, another edition, one worker (target 3)', warm),
        row('warm, two workers', two),
        row('bare loop over two threads, the same work', bare),
        row('again: every result there already', again),
        '',
        `Two workers run at ${((100 * two.rate) / bare.rate).toFixed(0)} % of the bare loop over two threads (target 90 %).`,
        `Highest memory, warm, one worker: ${small.toFixed(0)} MB at ${Math.ceil(records / 10)} records, ${large.toFixed(0)} MB at ${records}.`,
      ].join('\n'),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const [, , archive, out] = process.argv;
if (archive !== undefined && out !== undefined) {
  await rescoreBy(archive, { out, number: 9, workers: 1 });
  console.log(process.resourceUsage().maxRSS);
} else await compareAll();
