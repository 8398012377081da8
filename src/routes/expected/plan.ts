import type { Fact, RouteProblem } from '#routes/problem/route-problem';
import { evaluateWithin, type SolvedStates } from './and-or.ts';
import { type Aim, type Losses, type MoveChoice, moveChoices, type PlanSetting, worthOf } from './choices.ts';
import { greedyPolicy, lowerBound } from './estimate.ts';
import { type Move, type MoveOptions, moveTable } from './moves.ts';
import { byRatio } from './order-modules.ts';
import { type Policy, policyOf } from './policy.ts';
import { startOfWork, type WorkState, workState } from './work-state.ts';

/** How far may a search go? */
export interface SearchLimits {
  /** States entered; beyond them estimates stand in. */
  readonly states: number;
  /** Time by the given clock [ms]; without a clock there is no limit of time. */
  readonly milliseconds?: number;
  readonly now?: () => number;
}

/** 200,000 states: a second or two of work, some 200 MB. */
export const DEFAULT_LIMITS: SearchLimits = { states: 200_000 };

/** What is planned, by which chances, losses and limits? */
export interface PlanRequest {
  readonly problem: RouteProblem;
  readonly target: Fact;
  readonly chances: MoveOptions['chances'];
  readonly losses: Losses;
  readonly aim: Aim;
  readonly limits: SearchLimits;
}

/** A policy with its worth by the aim, the worth that no policy betters, and how many states were entered. */
export interface Plan {
  readonly policy: Policy;
  readonly value: number;
  readonly bound: number;
  readonly isProved: boolean;
  readonly states: number;
}

/** Which policy is best? A target that nothing can reach is stranded from the start. */
export const planPolicy = (request: PlanRequest): Plan => {
  const { losses, aim, limits } = request;
  const modules = byRatio((move) => ratioOf(move, losses, aim));
  const table = moveTable(request.problem, request.target, { chances: request.chances, modules });
  if (!table) {
    const value = worthOf(aim, losses.strandedMilliseconds, 0).adds;
    return { policy: { start: 'stranded', nodes: [] }, value, bound: value, isProved: true, states: 0 };
  }
  const setting: PlanSetting = { table, losses, aim, known: new Map() };
  const root = workState(table, startOfWork(table), setting.known);
  const solved: SolvedStates<WorkState, MoveChoice> = new Map();
  const gate = limitGate(limits);
  const search = {
    aim: 'least',
    key: (state: WorkState) => state.key,
    choices: (state: WorkState) => moveChoices(setting, state),
  } as const;
  const best = evaluateWithin(search, root, { solved, enter: gate.enter });
  const { value } = best ?? greedyPolicy(setting, root, solved);
  const bound = best ? value : Math.min(value, lowerBound(setting, root));
  return {
    policy: policyOf(setting, root, solved),
    value,
    bound,
    isProved: best !== undefined,
    states: gate.entered(),
  };
};

interface Gate {
  readonly enter: () => boolean;
  readonly entered: () => number;
}

const CLOCK_EVERY = 64;

/** May one more state be entered? The clock is asked once in 64 states; once shut the gate stays shut. */
const limitGate = (limits: SearchLimits): Gate => {
  let entered = 0;
  let isShut = false;
  const started = limits.now?.() ?? 0;
  const isLate = (): boolean =>
    limits.now !== undefined && limits.milliseconds !== undefined && limits.now() - started > limits.milliseconds;
  const enter = (): boolean => {
    if (entered >= limits.states || (entered % CLOCK_EVERY === 0 && isLate())) isShut = true;
    if (!isShut) entered++;
    return !isShut;
  };
  return { enter, entered: () => entered };
};

/** A move's expected cost, losses included, over the chance that the work ends there; as the two figures of the aim. */
const ratioOf = (move: Move, losses: Losses, aim: Aim): ReturnType<typeof worthOf> => {
  const ending = 1 - move.success;
  const stranding = Math.max(0, ending - move.damage);
  const loss = move.damage * losses.damageMilliseconds + stranding * losses.strandedMilliseconds;
  return worthOf(aim, (move.milliseconds + loss) / ending, move.damage / ending);
};
