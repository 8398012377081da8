// How long from a mark's key to a fresh readout and suggestion, on 150 fasteners, at 1,000 entries and at 700 (the battery
// not out yet)? In one process, after marks that warm it up. Usage: npm run bench -- bench-session

import { markTime } from '../../src/web/bench/commands/bench-patches.ts';
import { benchThings } from '../../src/web/bench/entry-line/bench-things.ts';
import { readLine } from '../../src/web/bench/entry-line/read-line.ts';
import { liveReadout } from '../../src/web/bench/live/live-readout.ts';
import { lastChance } from '../../src/web/bench/suggestion/last-chance.ts';
import { routeHints } from '../../src/web/bench/suggestion/route-hints.ts';
import { suggestMark } from '../../src/web/bench/suggestion/suggest-mark.ts';
import { applyPatch } from '../../src/web/ledger/apply-patch.ts';
import { benchFixture } from './make-fixture.ts';

const SEED = 20_261_125;
const WARM_UP = 30;
const MARKS = 200;
const GOAL = 'p49';

const times: { readonly mark: number[]; readonly letter: number[] }[] = [];
for (const entries of [700, 1000]) {
  let document = benchFixture(SEED, entries);
  const taken = { mark: [] as number[], letter: [] as number[] };
  for (let index = 0; index < WARM_UP + MARKS; index++) {
    const begun = performance.now();
    const patch = markTime({ document, session: 's' }, { key: `m${index}`, at: 1e6 + index, goal: GOAL });
    const applied = applyPatch(document, patch);
    if (!applied.fits) throw new Error(applied.why);
    document = applied.document;
    const readout = liveReadout(document, 's', GOAL);
    const things = benchThings(document, readout.device);
    const suggestion = suggestMark(readout, { goal: GOAL, route: routeHints(document, GOAL) });
    lastChance({ document, session: 's', readout }, suggestion?.naming);
    const seen = performance.now();
    readLine('unscrew 3 fasten 14', things, { off: readout.off, recent: [] });
    const read = performance.now();
    if (index < WARM_UP) continue;
    taken.mark.push(seen - begun);
    taken.letter.push(read - seen);
  }
  times.push(taken);
}

const at = (all: readonly number[], share: number): string =>
  ([...all].sort((a, b) => a - b)[Math.floor(all.length * share)] ?? Number.NaN).toFixed(1);

console.log(`${MARKS} marks, seed ${SEED}.\n`);
console.log('| what | entries | p50 [ms] | p95 [ms] | target p95 [ms] |\n| --- | --- | --- | --- | --- |');
for (const [index, entries] of [700, 1000].entries())
  for (const [name, kind] of [
    ['mark to readout and suggestion', 'mark'],
    ['one letter in the entry line', 'letter'],
  ] as const) {
    const all = times[index]?.[kind] ?? [];
    console.log(`| ${name} | ${entries} | ${at(all, 0.5)} | ${at(all, 0.95)} | 50 |`);
  }
