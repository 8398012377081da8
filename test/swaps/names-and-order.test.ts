import { expect, test } from 'vitest';
import { seededNumbers } from '#quantity/seeded-numbers';
import { diagnoseAll, type PartDiagnosis } from '#swaps/diagnosis/diagnose';
import type { Suspicion } from '#swaps/model/suspicion';
import type { SwapRun } from '#swaps/model/swap-run';
import { simulateRuns } from '#swaps/simulate/simulate-runs';
import { share } from '../share.ts';
import { drawBench } from './random-bench.ts';

/** Other names, in another alphabetical order. */
const OTHER: Readonly<Record<string, string>> = {
  A: 'z',
  B: 'm',
  C: 'b',
  'specimen:A': 'specimen:z',
  'specimen:B': 'specimen:m',
  'specimen:C': 'specimen:b',
  'spare-1': 'y',
  'spare-2': 'x',
  battery: 'p9',
  camera: 'p5',
  display: 'p1',
};
const BACK = Object.fromEntries(Object.entries(OTHER).map(([name, other]) => [other, name]));
const otherId = (id: string): string => [...id].reverse().join('');

const renamed = (run: SwapRun): SwapRun => ({
  ...run,
  id: otherId(run.id),
  host: OTHER[run.host] ?? run.host,
  part: OTHER[run.part] ?? run.part,
  piece: {
    ...run.piece,
    key: OTHER[run.piece.key] ?? run.piece.key,
    ...(run.piece.home === undefined ? {} : { home: OTHER[run.piece.home] ?? run.piece.home }),
  },
  together: run.together.map((part) => OTHER[part] ?? part),
});

type Names = Readonly<Record<string, string>>;

const form = ({ piece, damagedFrom, ...rest }: Suspicion, names: Names): string =>
  JSON.stringify([
    rest,
    piece && (names[piece] ?? piece),
    Object.entries(damagedFrom ?? {})
      .map(([host, order]) => [names[host] ?? host, order])
      .sort(),
  ]);

/** What a diagnosis says, with the names put back; runs that exclude something as sets. */
const said = (found: PartDiagnosis, names: Names, idOf: (id: string) => string) => ({
  standing: found.standing.map(({ explanation, suspicions }) => [
    explanation,
    suspicions.map((one) => form(one, names)).sort(),
  ]),
  excluded: found.excluded.map(({ explanation, by }) => [explanation, by.map(idOf).sort()]),
  moot: found.moot,
  decided: found.decided,
  words: found.words,
  gaps: found.gaps.map(({ kind, runs }) => [kind, runs.map(idOf)]),
  setAside: found.setAside.map(({ run, why }) => [idOf(run), why]),
  figures: found.effects.map(({ shareOfUnits, fisher }) => [shareOfUnits?.value, fisher?.value]),
});

test('other names of specimens, pieces, parts and runs, given in another order, change nothing', () => {
  for (let seed = 1; seed <= share(60, 1000); seed++) {
    const random = seededNumbers(seed);
    const bench = drawBench(random, { parts: 3, starts: 12 });
    const runs = simulateRuns(bench, bench.starts, random);
    const turned = new Map(
      [...runs].reverse().map(([part, ofPart]) => [OTHER[part] ?? part, ofPart.map(renamed).reverse()]),
    );
    const options = { firmware: bench.firmware };
    const [one, other] = [diagnoseAll(runs, options), diagnoseAll(turned, options)];
    for (const [part, found] of one) {
      const again = other.get(OTHER[part] ?? part);
      expect(again && said(again, BACK, otherId)).toEqual(said(found, {}, (id) => id));
    }
  }
});
