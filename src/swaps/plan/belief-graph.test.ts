import { describe, expect, test } from 'vitest';
import { type SeededNumbers, seededNumbers } from '#quantity/seeded-numbers';
import { share } from '../../../test/share.ts';
import { EXPLANATIONS } from '../model/explanation.ts';
import type { Piece, RunSetting } from '../model/swap-run.ts';
import { agrees } from '../signature/allowed.ts';
import { placeRuns } from '../signature/placed-run.ts';
import { predictRun } from '../signature/predict.ts';
import { suspicionsOf } from '../signature/suspicions-of.ts';
import { type Belief, BeliefGraph } from './belief-graph.ts';
import type { MadeRun } from './made-run.ts';

const FIRMWARE = ['1.0', '1.1', '2.0'];
const HOSTS = ['a', 'b'];
const PIECES: readonly Piece[] = [
  { key: 'specimen:a', home: 'a', revision: 'R1', homeLock: 'none' },
  { key: 'specimen:b', home: 'b', revision: 'R1', homeLock: 'none' },
  { key: 'spare', kind: 'makers-spare' },
  { key: 'salvaged', revision: 'R2', homeLock: 'locked' },
];

const drawn = <T>(from: readonly T[], draw: SeededNumbers): T => from[Math.floor(draw() * from.length)] as T;

/** As a plan sets them: the host ready and settled, its revision and firmware known or not, but the same for all its runs or newer. */
const drawSetting = (draw: SeededNumbers, versions: Map<string, number>): RunSetting => {
  const host = drawn(HOSTS, draw);
  const piece = draw() < 0.4 ? (PIECES[HOSTS.indexOf(host)] as Piece) : drawn(PIECES, draw);
  const version = Math.min(FIRMWARE.length - 1, (versions.get(host) ?? 0) + Number(draw() < 0.2));
  versions.set(host, version);
  return {
    host,
    ...(host === 'a' ? { hostRevision: 'R1' } : {}),
    part: 'coil',
    piece,
    isOwn: piece.home === host,
    handled: draw() < 0.7,
    firmware: FIRMWARE[version] ?? '1.0',
    calibrated: draw() < 0.2,
    authorised: draw() < 0.2,
    identityMoved: draw() < 0.1,
    ready: true,
    settled: true,
  };
};

/** Runs of which every outcome but the hidden ones is one that something still suspected foretells. */
const drawRuns = (graph: BeliefGraph, draw: SeededNumbers): { runs: readonly MadeRun[]; stepped: Belief } => {
  const runs: MadeRun[] = [];
  const versions = new Map<string, number>();
  let belief = graph.after([]);
  for (let order = 1; order <= 7; order++) {
    const setting = drawSetting(draw, versions);
    const { next } = graph.step(belief, () => setting, keys++);
    const outcome = draw() < 0.15 ? 'unseen' : drawn([...next.keys()], draw);
    if (outcome === undefined) break;
    belief =
      outcome === 'unseen' ? graph.unseen(belief, () => setting, keys++) : (next.get(outcome) ?? graph.after([]));
    runs.push({ ...setting, order, outcome });
  }
  return { runs, stepped: belief };
};

let keys = 0;

describe('what is known after some runs', () => {
  const graph = new BeliefGraph(FIRMWARE);
  const draw = seededNumbers(7);
  const cases = Array.from({ length: share(300, 5000) }, () => drawRuns(graph, draw));

  test('is the same run by run as from all of them at once', () => {
    for (const { runs, stepped } of cases)
      expect(stepped.standing, JSON.stringify(runs)).toEqual(graph.after(runs).standing);
    expect(cases.filter(({ runs }) => runs.length > 3).length).toBeGreaterThan(cases.length / 2);
  });

  test('stands exactly if some form of it agrees with every run', () => {
    for (const { runs } of cases) {
      const placed = placeRuns(runs);
      const stands = suspicionsOf(runs, FIRMWARE).suspicions.filter((suspicion) =>
        runs.every(({ outcome }, at) => {
          const run = placed[at];
          return run !== undefined && agrees(predictRun(suspicion, run, FIRMWARE), outcome);
        }),
      );
      const names = new Set(stands.map(({ explanation }) => explanation));
      expect(graph.after(runs).standing).toEqual(EXPLANATIONS.filter((explanation) => names.has(explanation)));
    }
  });
});
