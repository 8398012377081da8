import { seededNumbers } from '../../src/quantity/seeded-numbers.ts';
import type { RunSetting, SwapRun } from '../../src/swaps/model/swap-run.ts';
import type { SheetRun } from '../../src/swaps/plan/sheet-run.ts';
import type { SwapProblem } from '../../src/swaps/plan/swap-problem.ts';
import { answerRun, type SimulatedDevice } from '../../src/swaps/simulate/answer-run.ts';

/** A device to be asked, with the seed of its choices. */
export interface Answering {
  readonly device: SimulatedDevice;
  readonly seed: number;
}

/** One start with what it costs beyond start, soak and checks. */
export interface BenchStart {
  readonly fits: readonly RunSetting[];
  /** Hosts opened for it: the one that is started, and one whose parts are taken. */
  readonly opened: readonly string[];
  readonly isUpdate: boolean;
}

/** What the parts of a start show, taken down as runs. */
export const answered = (
  problem: SwapProblem,
  fits: readonly RunSetting[],
  { device, seed, order, earlier }: Answering & { order: number; earlier: readonly SwapRun[] },
): readonly SwapRun[] => {
  const before = new Map(problem.parts.map(({ id }) => [id, earlier.filter(({ part }) => part === id)]));
  const answers = answerRun(device, { order, fits, earlier: before }, seededNumbers(seed * 997 + order));
  return fits.map((fit, index) => {
    const answer = answers[index];
    return {
      ...fit,
      id: `run-${order}-${fit.part}`,
      order,
      outcome: answer?.outcome ?? 'unseen',
      ...(answer?.effect === undefined ? {} : { effect: answer.effect }),
      attributed: answer?.attributed ?? true,
      together: fits.filter(({ part, isOwn }) => part !== fit.part && !isOwn).map(({ part }) => part),
      evidence: [],
    };
  });
};

/** The circumstances of a planned run, as a tester takes them down. */
export const planned = (problem: SwapProblem, run: SheetRun): readonly RunSetting[] =>
  run.fits.map((fit) => {
    const { part, isOwn, handled, calibrated, authorised, identityMoved } = fit;
    return {
      ...settingOf(run.host, part, fit.piece.slice('specimen:'.length)),
      isOwn,
      handled,
      calibrated,
      authorised,
      identityMoved,
      firmware: run.firmware ?? problem.firmware[0] ?? '',
    };
  });

/** A fit as it is before anything is said of it. */
export const settingOf = (host: string, part: string, home: string): RunSetting => ({
  host,
  hostRevision: 'R1',
  part,
  piece: { key: `specimen:${home}`, home, revision: 'R1', homeLock: 'none' },
  isOwn: host === home,
  handled: true,
  firmware: '1.0',
  calibrated: false,
  authorised: false,
  identityMoved: false,
  ready: true,
  settled: true,
});

/** What a start of the protocol takes [s]: the hosts opened for it opened and shut, fits, steps, update, start, soak and checks. */
export const startSeconds = (problem: SwapProblem, { fits, opened, isUpdate }: BenchStart): number => {
  const parts = problem.parts.filter(({ id }) => fits.some(({ part }) => part === id));
  const layers = new Set(parts.flatMap((part) => part.layers));
  const opening = [...layers].reduce((sum, id) => {
    const { openSeconds = 0, closeSeconds = 0 } = problem.layers[id] ?? {};
    return sum + openSeconds + closeSeconds;
  }, 0);
  const own = fits.reduce((sum, fit) => {
    const part = parts.find(({ id }) => id === fit.part);
    const steps =
      (fit.authorised ? (part?.authoriseSeconds ?? 0) : 0) + (fit.calibrated ? (part?.calibrateSeconds ?? 0) : 0);
    return sum + (part?.checkSeconds ?? 0) + (fit.handled ? (part?.fitSeconds ?? 0) : 0) + steps;
  }, 0);
  return (
    problem.startSeconds + problem.soakSeconds + opening * opened.length + own + (isUpdate ? problem.updateSeconds : 0)
  );
};
