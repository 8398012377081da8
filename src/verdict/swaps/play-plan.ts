import type { SeededNumbers } from '#quantity/seeded-numbers';
import { diagnoseAll, type PartDiagnosis } from '#swaps/diagnosis/diagnose';
import type { Offered } from '#swaps/diagnosis/gaps';
import type { Explanation } from '#swaps/model/explanation';
import type { Piece, RunSetting, SwapRun } from '#swaps/model/swap-run';
import { nextFrom } from '#swaps/plan/next-run';
import { PLAN_LIMITS, type PlanLimits } from '#swaps/plan/plan-limits';
import { Planner } from '#swaps/plan/planner';
import type { SheetFit, SheetRun } from '#swaps/plan/sheet-run';
import { donorPiece, ownPiece, type SwapProblem } from '#swaps/plan/swap-problem';
import { isSurePass } from '#swaps/signature/allowed';
import { predict } from '#swaps/signature/predict';
import { answerRun, type SimulatedDevice } from '#swaps/simulate/answer-run';
import { type HiddenTruth, suspicionOf } from '#swaps/simulate/hidden-truth';
import { isMet } from '#swaps/simulate/met-truth';

/** A plan played against a device that hides its truths. */
export interface Play {
  readonly problem: SwapProblem;
  readonly device: SimulatedDevice;
  readonly random: SeededNumbers;
  readonly limits?: Partial<PlanLimits>;
}

/** One run that was played: what the plan asked for, and what the device showed of each part. */
export interface PlayedRun {
  readonly order: number;
  readonly run: SheetRun;
  readonly shown: readonly SwapRun[];
}

/** How the diagnosis of one part ended against its truth. */
export interface PlayedPart {
  readonly part: string;
  readonly hidden: HiddenTruth;
  /** The truth as far as it showed: what never could show in these runs counts as accepted. */
  readonly truth: Explanation;
  readonly diagnosis: PartDiagnosis;
  /** Named: the truth is decided. Standing: among others. Missed: it was excluded. */
  readonly outcome: 'named' | 'standing' | 'missed';
}

/** More runs than this are not played: the plan would have ended long before. */
const MOST_RUNS = 300;

/** So many times the same run in a row tells nothing more, whatever the plan hopes for. */
const SAME_RUNS = 4;

/**
 * What does a plan come to against a device with a hidden truth? Run by run as the plan asks for them, then part by part whether
 * the diagnosis named the truth. The same seed gives the same runs.
 */
export function* playPlan({ problem, device, random, limits }: Play): Generator<PlayedRun, readonly PlayedPart[]> {
  const planner = new Planner(problem, { ...PLAN_LIMITS, ...limits });
  const runs = new Map<string, SwapRun[]>();
  const asked: string[] = [];
  for (let order = 1; order <= MOST_RUNS; order += 1) {
    const { run } = nextFrom(planner, [...runs.values()].flat());
    if (!run) break;
    asked.push(JSON.stringify(run));
    if (asked.length >= SAME_RUNS && new Set(asked.slice(-SAME_RUNS)).size === 1) break;
    const fits = run.fits.map((fit) => settingOfFit(problem, run, fit));
    const answers = answerRun(device, { order, fits, earlier: runs }, random);
    const shown = fits.map((fit, index): SwapRun => {
      const answer = answers[index];
      const arm = run.fits[index]?.arm;
      return {
        ...fit,
        id: `run-${order}-${fit.part}`,
        order,
        ...(arm === undefined ? {} : { arm }),
        outcome: answer?.outcome ?? 'unseen',
        ...(answer?.effect === undefined ? {} : { effect: answer.effect }),
        attributed: answer?.attributed ?? true,
        together: fits.filter(({ part }) => part !== fit.part).map(({ part }) => part),
        evidence: [],
      };
    });
    for (const made of shown) runs.set(made.part, [...(runs.get(made.part) ?? []), made]);
    yield { order, run, shown };
  }
  return playedParts(problem, device, runs);
}

/** Under which circumstances is a fit of the run sheet made? Closed up, grounded, charged and soaked, as the sheet asks. */
const settingOfFit = (problem: SwapProblem, run: SheetRun, fit: SheetFit): RunSetting => {
  const host = problem.hosts.find(({ id }) => id === run.host);
  const revision = host?.revisions?.[fit.part];
  return {
    host: run.host,
    ...(revision === undefined ? {} : { hostRevision: revision }),
    part: fit.part,
    piece: pieceOfFit(problem, fit),
    isOwn: fit.isOwn,
    handled: fit.handled,
    ...(run.firmware === undefined ? {} : { firmware: run.firmware }),
    calibrated: fit.calibrated,
    authorised: fit.authorised,
    identityMoved: fit.identityMoved,
    ready: true,
    settled: true,
  };
};

const pieceOfFit = ({ hosts, donors }: SwapProblem, { piece, part }: SheetFit): Piece => {
  const pieces = [
    ...hosts.map((host) => ownPiece(host, part)),
    ...donors.filter((donor) => donor.part === part).map(donorPiece),
  ];
  return pieces.find(({ key }) => key === piece) ?? { key: piece };
};

const playedParts = (
  problem: SwapProblem,
  device: SimulatedDevice,
  runs: ReadonlyMap<string, readonly SwapRun[]>,
): readonly PlayedPart[] => {
  const offered = new Map(
    problem.parts.map(({ id, authoriseSeconds, calibrateSeconds }): readonly [string, Offered] => [
      id,
      { authorisation: authoriseSeconds !== undefined, calibration: calibrateSeconds !== undefined },
    ]),
  );
  const diagnoses = diagnoseAll(runs, { firmware: problem.firmware, offered });
  return problem.parts.flatMap(({ id }) => {
    const [hidden, diagnosis] = [device.truths.get(id), diagnoses.get(id)];
    if (!hidden || !diagnosis) return [];
    const truth = shownTruth(hidden, { runs: runs.get(id) ?? [], firmware: problem.firmware });
    return [{ part: id, hidden, truth, diagnosis, outcome: outcomeOf(truth, diagnosis) }];
  });
};

/**
 * What is the truth as far as it could show? Accepted where it foretells nothing amiss in any run (damage that was never done), and
 * where no run could have met it (a bad piece that was never seen away from home).
 */
const shownTruth = (
  hidden: HiddenTruth,
  { runs, firmware }: { readonly runs: readonly SwapRun[]; readonly firmware: readonly string[] },
): Explanation => {
  const neverAmiss = predict(suspicionOf(hidden, runs), runs, firmware).every(isSurePass);
  return isMet(hidden, runs, firmware) && !neverAmiss ? hidden.explanation : 'accepted';
};

const outcomeOf = (truth: Explanation, { decided, standing }: PartDiagnosis): PlayedPart['outcome'] => {
  if (decided === truth) return 'named';
  return standing.some(({ explanation }) => explanation === truth) ? 'standing' : 'missed';
};
