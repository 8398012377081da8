// All routes of the demo device: fewest steps, best found and least time to every part; front and shared burden; the whole verdict.
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Assessment } from '#record/schema/assessment';
import { isUsable, leastTime } from '#routes/least-time/least-time';
import { searchBest } from '#schemes/eu-2023-1669/bases/best-search';
import { computeVerdict } from '#verdict/compute-verdict';
import { groundworkOf, readingsOf } from '#verdict/index-bases';
import { burdenVerdicts } from '#verdict/parts/shared-burden';
import { namesOf } from '#verdict/words';

const record = parse(
  readFileSync(new URL('../../examples/tarn-5/assessment.yaml', import.meta.url), 'utf8'),
) as Assessment;
const readings = readingsOf(record);

const timed = (work: () => unknown): number => {
  const start = performance.now();
  work();
  return performance.now() - start;
};

/** Best of several runs on fresh groundwork each, after a warm-up, so that no cache of the problem is warm but the code is [ms]. */
const best = (runs: number, work: (groundwork: ReturnType<typeof groundworkOf>) => unknown): number => {
  const times: number[] = [];
  for (let run = 0; run <= runs; run++) {
    const groundwork = groundworkOf(record);
    times.push(timed(() => work(groundwork)));
  }
  return Math.min(...times.slice(1));
};

const routesOf = (groundwork: ReturnType<typeof groundworkOf>): void => {
  const usable = {
    ...groundwork.problems.pessimistic,
    actions: groundwork.problems.pessimistic.actions.filter(isUsable),
  };
  for (const part of groundwork.source.device.parts.keys()) {
    searchBest(groundwork.problems, { source: groundwork.source, readings, part });
    leastTime(usable, [`free/${part}`]);
  }
};

const rows: readonly (readonly [string, number, string])[] = [
  ['groundwork: device, trials, problems', best(5, () => groundworkOf(record)), '-'],
  ['every part: best found (shown and possible) and least time', best(3, routesOf), '100 ms'],
  [
    'shared burden of all fasteners',
    best(1, (groundwork) =>
      burdenVerdicts(groundwork, readings, namesOf(groundwork.source.device, record.tools ?? {})),
    ),
    '2 s with the front',
  ],
  ['whole verdict, every other reading included', best(1, () => computeVerdict(record, { recordDigest: '' })), '-'],
];
const parts = groundworkOf(record).source.device.parts.size;
console.log(`tarn-5: ${parts} parts.\n\n| what | ms | target |\n| --- | --- | --- |`);
for (const [what, ms, target] of rows) console.log(`| ${what} | ${ms.toFixed(1)} | ${target} |`);
