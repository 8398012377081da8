import type { SwapRun } from '../model/swap-run.ts';
import { attributePools } from './attribute-pools.ts';
import { type Conclusion, conclude } from './conclusion.ts';
import { type EffectOnFirmware, effectsOf } from './effects.ts';
import { type Gap, gapsOf, type Offered } from './gaps.ts';
import { type SetAside, setAsideBy } from './set-aside.ts';
import { toldApart } from './told-apart.ts';
import { type Finding, type Weighed, weigh, weighedWith } from './weighing.ts';
import { verdictWords } from './words.ts';

/** What is at this bench: firmware versions, oldest first, and the steps that can be taken, by part id. */
export interface DiagnosisOptions {
  readonly firmware: readonly string[];
  readonly offered?: ReadonlyMap<string, Offered>;
}

/** What is known of one part after its runs: the effect apart from the cause. */
export interface PartDiagnosis extends Conclusion {
  readonly part: string;
  /** What foreign pieces showed, by firmware, oldest first. */
  readonly effects: readonly EffectOnFirmware[];
  /** Runs whose effect is not laid to the software. */
  readonly setAside: readonly SetAside[];
  /**
   * Where no explanation agrees with the runs on all firmware versions: what the runs on the newest version tried, taken alone, say.
   * What earlier runs left behind still counts.
   */
  readonly newestAlone?: Conclusion & { readonly firmware: string };
  /** The verdict at the level tested. */
  readonly words: string;
  readonly gaps: readonly Gap[];
}

/** What is known of a part after its runs? Runs made together with other parts stay untold unless those parts are given as well. */
export const diagnose = (part: string, runs: readonly SwapRun[], options: DiagnosisOptions): PartDiagnosis => {
  const weighed = attributePools(new Map([[part, weigh(runs, options.firmware)]])).get(part);
  return diagnosePart(part, weighed ?? weighedWith(weigh(runs, options.firmware), []), options);
};

/**
 * What is known of each part after all runs? Runs of several parts at once are told apart by elimination first. `runs` by part id; the
 * result has the same order, and does not depend on it. One explanation holds of a part at a time: where the truth is among those
 * considered and no run was misread or masked unseen, it is never excluded (docs/method/swap-diagnosis.md).
 */
export const diagnoseAll = (
  runs: ReadonlyMap<string, readonly SwapRun[]>,
  options: DiagnosisOptions,
): ReadonlyMap<string, PartDiagnosis> => {
  const weighings = new Map([...runs].map(([part, ofPart]) => [part, weigh(ofPart, options.firmware)]));
  const all = [...attributePools(weighings)];
  return new Map(all.map(([part, weighed]) => [part, diagnosePart(part, weighed, options)]));
};

const diagnosePart = (part: string, weighed: Weighed, options: DiagnosisOptions): PartDiagnosis => {
  const conclusion = conclude(weighed);
  const runs = toldApart(weighed.runs, weighed.findings);
  const setAside = setAsideBy(weighed, conclusion);
  const { firmware } = options;
  const effects = effectsOf({ part, runs, setAside, firmware });
  const { damagedAtOnce } = weighed.all;
  const offered = options.offered?.get(part) ?? {};
  const gaps = gapsOf({
    runs,
    conclusion,
    firmware,
    offered,
    ...(damagedAtOnce === undefined ? {} : { damagedAtOnce }),
  });
  const newestAlone = conclusion.standing.length === 0 ? concludeNewest(weighed, firmware) : undefined;
  const words = verdictWords(effects, conclusion);
  return { part, ...conclusion, effects, setAside, ...(newestAlone ? { newestAlone } : {}), words, gaps };
};

const concludeNewest = (weighed: Weighed, firmware: readonly string[]): PartDiagnosis['newestAlone'] => {
  const { runs, findings } = weighed;
  const tried = new Set(runs.filter(({ isOwn }) => !isOwn).map((run) => run.firmware));
  const newest = firmware.findLast((version) => tried.has(version));
  if (newest === undefined || tried.size < 2) return undefined;
  const alone = findings.map(
    (finding, place): Finding => (runs[place]?.firmware === newest ? finding : { outcome: 'unseen', basis: [] }),
  );
  return { firmware: newest, ...conclude(weighedWith(weighed, alone)) };
};
