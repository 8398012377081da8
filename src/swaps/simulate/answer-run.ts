import type { SeededNumbers } from '#quantity/seeded-numbers';
import type { EffectCode, Outcome, RunSetting } from '../model/swap-run.ts';
import { type OrderedSetting, placeRuns } from '../signature/placed-run.ts';
import { predictRun } from '../signature/predict.ts';
import { type DeviceNotice, noticeOf } from './device-notice.ts';
import { type HiddenTruth, pick, suspicionOf } from './hidden-truth.ts';

/** A simulated device: what is the matter with each part, by part id, and how it strays from what the diagnosis takes for granted. */
export interface SimulatedDevice {
  readonly truths: ReadonlyMap<string, HiddenTruth>;
  /** Versions at hand, oldest first. */
  readonly firmware: readonly string[];
  readonly strays?: Strays;
}

/** How a simulated device or its tester strays from what the diagnosis takes for granted; each is off unless named. */
export interface Strays {
  /** What a part that keeps the host from running hides is taken down as clean. */
  readonly masksUnnoticed?: boolean;
  /** Two parts that fail when both are foreign in one run, whatever else they are. */
  readonly interacting?: readonly [string, string];
  /** Chance that a function fails in a run for no reason. */
  readonly flaky?: number;
  /** Chance that what a part showed is misread: a pass as trouble, trouble as a pass. */
  readonly testError?: number;
}

/** One start of one host: what was fitted, part by part, and the runs of each part before it. */
export interface RunQuestion {
  readonly order: number;
  readonly fits: readonly RunSetting[];
  readonly earlier: ReadonlyMap<string, readonly OrderedSetting[]>;
  /** Does the device not say which part it is about, so that the effect is one of the whole run? */
  readonly isPooled?: boolean;
}

/** What a run showed of one part, as a tester takes it down. */
export interface PartAnswer {
  readonly part: string;
  /** Undefined: hidden by another part. */
  readonly effect?: EffectCode;
  readonly outcome: Outcome;
  readonly attributed: boolean;
  readonly notice?: DeviceNotice;
}

/**
 * What does the device answer in one run? Each part by its hidden truth, which allows what `predictRun` says; where that leaves a
 * choice, by lot. A part with E6 keeps the host from running and hides the others. Numbers come from `random` in the order of
 * the fits, so that the same seed and the same runs give the same answers.
 */
export const answerRun = (
  device: SimulatedDevice,
  question: RunQuestion,
  random: SeededNumbers,
): readonly PartAnswer[] => {
  const { strays = {} } = device;
  const codes = question.fits.map((fit) => codeShown(device, { fit, question }, random));
  const isDark = codes.includes('E6');
  const seen = codes.map((code): EffectCode | undefined => {
    if (!isDark || code === 'E6') return code;
    return strays.masksUnnoticed ? 'E0' : undefined;
  });
  if (question.isPooled) return pooled(question.fits, worst(codes), random() < (strays.testError ?? 0));
  return question.fits.map((fit, place) => {
    const code = seen[place];
    const isMisread = code !== undefined && random() < (strays.testError ?? 0);
    return answer(fit.part, isMisread ? misreadAs(code) : code);
  });
};

interface Fitted {
  readonly fit: RunSetting;
  readonly question: RunQuestion;
}

const codeShown = (device: SimulatedDevice, { fit, question }: Fitted, random: SeededNumbers): EffectCode => {
  const { strays = {} } = device;
  const truth = device.truths.get(fit.part) ?? { explanation: 'accepted', code: 'E0' };
  const runs = [...(question.earlier.get(fit.part) ?? []), { ...fit, order: question.order }];
  const placed = placeRuns(runs).at(-1);
  const allowed = placed ? predictRun(suspicionOf(truth, runs), placed, device.firmware) : [];
  const fitting = allowed.filter((outcome) => outcome === 'passed' || outcome === outcomeOf(truth.code));
  const outcome = pick(fitting.length > 0 ? fitting : allowed, random) ?? 'passed';
  const isFlaky = strays.flaky !== undefined && random() < strays.flaky;
  if (outcome !== 'passed') return outcome === 'reduced' ? 'E4' : troubleCode(truth, fit);
  return isFlaky || isInteracting(fit, question, strays) ? 'E5' : 'E0';
};

/** A latched host refuses its own part: E7. */
const troubleCode = ({ explanation, code }: HiddenTruth, { isOwn }: RunSetting): EffectCode =>
  isOwn && explanation === 'pairing-latching' ? 'E7' : code;

const isInteracting = (fit: RunSetting, { fits }: RunQuestion, { interacting }: Strays): boolean =>
  interacting?.includes(fit.part) === true &&
  interacting.every((part) => fits.some((other) => other.part === part && !other.isOwn));

const pooled = (fits: readonly RunSetting[], code: EffectCode, isMisread: boolean): readonly PartAnswer[] =>
  fits.map(({ part }) => ({ ...answer(part, isMisread ? misreadAs(code) : code), attributed: fits.length < 2 }));

const answer = (part: string, effect: EffectCode | undefined): PartAnswer => {
  if (effect === undefined) return { part, outcome: 'unseen', attributed: true };
  const notice = noticeOf(effect);
  return { part, effect, outcome: outcomeOf(effect), attributed: true, ...(notice ? { notice } : {}) };
};

const misreadAs = (code: EffectCode): EffectCode => (code === 'E0' ? 'E5' : 'E0');

const worst = (codes: readonly EffectCode[]): EffectCode => [...codes].sort().at(-1) ?? 'E0';

const outcomeOf = (code: EffectCode): Outcome => {
  if (code === 'E0') return 'passed';
  return code === 'E4' ? 'reduced' : 'failed';
};
