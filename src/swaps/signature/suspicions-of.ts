import { EXPLANATIONS, type Explanation } from '../model/explanation.ts';
import type { Suspicion } from '../model/suspicion.ts';
import type { Outcome } from '../model/swap-run.ts';
import { isSurePass } from './allowed.ts';
import { damageSuspicions } from './damage-suspicions.ts';
import { type OrderedSetting, type PlacedRun, placeRuns } from './placed-run.ts';
import { predictRun } from './predict.ts';

/** A run made, with what it showed, or one that is only planned. */
export type RunOrPlan = OrderedSetting & { readonly outcome?: Outcome };

/** Everything that can be meant of a part. */
export interface Suspicions {
  readonly suspicions: readonly Suspicion[];
  /**
   * Explanations by circumstance that do not arise: no piece of another revision, no locked home, every run settled, every host ready;
   * or no run made showed anything to explain.
   */
  readonly moot: readonly Explanation[];
  /** In how many hosts at once handling damage is considered; undefined is in any number of them. */
  readonly damagedAtOnce?: number;
}

/**
 * Which exact forms may the rival explanations take for a part, given its runs (made or planned) and the firmware versions at hand,
 * oldest first? Pieces, hosts and versions are those of the runs. The order is that of the explanations, then that of the runs, so
 * that no name decides. At most some thousand: see `damageSuspicions`.
 */
export const suspicionsOf = (runs: readonly RunOrPlan[], firmware: readonly string[]): Suspicions => {
  const placed = placeRuns(runs);
  const isQuiet = runs.every(({ outcome }) => outcome === 'passed' || outcome === 'unseen');
  const moot = CIRCUMSTANCES.filter((explanation) => isQuiet || isMoot(explanation, placed, firmware));
  const damage = damageSuspicions(runs);
  const forms = (explanation: Explanation): readonly Suspicion[] => {
    if (moot.includes(explanation)) return [];
    if (explanation === 'bad-donor') return suspectPieces(runs).map((piece) => ({ explanation, piece }));
    if (explanation === 'handling-damage') return damage.suspicions;
    if (explanation === 'firmware-bug') return buggedVersions(runs, firmware).map((last) => bugUpTo(last));
    if (explanation === 'test-error') return misreadRuns(runs).map((misread) => ({ explanation, misread }));
    return [{ explanation }];
  };
  return {
    suspicions: EXPLANATIONS.flatMap(forms),
    moot,
    ...(damage.atOnce === undefined ? {} : { damagedAtOnce: damage.atOnce }),
  };
};

/**
 * Which suspicions that last does one run bring up? All that `suspicionsOf` lists once there is something to explain, but for handling
 * damage and test error, which it would itself bring about: their forms grow with every run.
 */
export const broughtUpBy = (run: RunOrPlan, placed: PlacedRun, firmware: readonly string[]): readonly Suspicion[] => [
  ...suspectPieces([run]).map((piece): Suspicion => ({ explanation: 'bad-donor', piece })),
  ...(givesGround(run) ? buggedVersions([run], firmware).map((last) => bugUpTo(last)) : []),
  ...CIRCUMSTANCES.filter((explanation) => !isMoot(explanation, [placed], firmware)).map((explanation) => ({
    explanation,
  })),
];

/** Explanations by a circumstance: where it is known to be absent from every run, there is nothing to explain by it. */
export const CIRCUMSTANCES: readonly Explanation[] = [
  'revision-mismatch',
  'gauge-or-cache',
  'donor-home-locked',
  'host-not-ready',
];

const isMoot = (explanation: Explanation, placed: readonly PlacedRun[], firmware: readonly string[]): boolean =>
  placed.every((run) => isSurePass(predictRun({ explanation }, run, firmware)));

const bugUpTo = (lastFirmware: string): Suspicion => ({ explanation: 'firmware-bug', lastFirmware });

const inOrder = (runs: readonly RunOrPlan[]): readonly RunOrPlan[] => [...runs].sort((a, b) => a.order - b.order);

/** Which runs may have been misread as showing something? None that showed nothing at all. */
const misreadRuns = (runs: readonly RunOrPlan[]): readonly number[] =>
  inOrder(runs.filter(({ outcome }) => outcome !== 'unseen')).map(({ order }) => order);

/** A piece that always passed at home and was never seen elsewhere gives no ground to suspect anything. */
const givesGround = ({ isOwn, outcome }: RunOrPlan): boolean =>
  outcome !== 'unseen' && (!isOwn || outcome === 'failed' || outcome === 'reduced');

const suspectPieces = (runs: readonly RunOrPlan[]): readonly string[] => [
  ...new Set(inOrder(runs.filter(givesGround)).map(({ piece }) => piece.key)),
];

/**
 * After which version may a bug have been mended? Not after the newest at hand: that is the unfixed bug. Nor before the oldest that
 * gave ground for it: such a bug was never met.
 */
const buggedVersions = (runs: readonly RunOrPlan[], firmware: readonly string[]): readonly string[] => {
  const met = runs.filter(givesGround);
  const oldest = Math.min(
    ...met.map((run) => (run.firmware === undefined ? 0 : Math.max(0, firmware.indexOf(run.firmware)))),
  );
  return firmware.slice(0, -1).filter((_, place) => place >= oldest);
};
