import type { Fact, RouteProblem } from '#routes/problem/route-problem';
import { evaluateAndOr, type SolvedStates } from './and-or.ts';
import { chancesAtMean } from './chances.ts';
import { type Losses, type MoveChoice, moveChoices, type PlanSetting } from './choices.ts';
import { moveTable } from './moves.ts';
import { type Policy, type PolicyFigures, policyFigures, policyOf } from './policy.ts';
import { startOfWork, type WorkState, workState } from './work-state.ts';

/** What a given order comes to at mean odds: time with losses [ms], work and chances as of any policy. */
export interface TimeOfOrder extends PolicyFigures {
  readonly milliseconds: number;
  readonly policy: Policy;
}

/**
 * How long does it take when the actions are tried in this order? Always the first listed action that can be taken, is not
 * exhausted and still serves the target; actions not listed are never taken. Throws a RangeError for an unknown action.
 */
export const timeOfOrder = (
  problem: RouteProblem,
  target: Fact,
  options: { readonly order: readonly string[]; readonly losses: Losses },
): TimeOfOrder => {
  const place = new Map(options.order.map((id, index) => [id, index]));
  const known = new Set(problem.actions.map((action) => action.id));
  const unknown = options.order.find((id) => !known.has(id));
  if (unknown !== undefined) throw new RangeError(`the problem has no action ${JSON.stringify(unknown)}`);
  const listed = { ...problem, actions: problem.actions.filter((action) => place.has(action.id)) };
  const table = moveTable(listed, target, { chances: chancesAtMean });
  if (!table) {
    const policy: Policy = { start: 'stranded', nodes: [] };
    return { milliseconds: options.losses.strandedMilliseconds, policy, ...policyFigures(policy) };
  }
  const setting: PlanSetting = { table, losses: options.losses, aim: 'least-time', known: new Map() };
  const root = workState(table, startOfWork(table), setting.known);
  const solved: SolvedStates<WorkState, MoveChoice> = new Map();
  const { value } = evaluateAndOr<WorkState, MoveChoice>(
    { aim: 'least', key: (state) => state.key, choices: (state) => [earliest(moveChoices(setting, state), place)] },
    root,
    solved,
  );
  const policy = policyOf(setting, root, solved);
  return { milliseconds: value, policy, ...policyFigures(policy) };
};

const earliest = (choices: readonly MoveChoice[], place: ReadonlyMap<string, number>): MoveChoice => {
  const placeOf = ({ name }: MoveChoice): number => place.get(name) ?? -1;
  const [first, ...rest] = choices;
  if (!first) throw new RangeError('a state of the work offers no choice');
  return rest.reduce((best, choice) => (placeOf(choice) < placeOf(best) ? choice : best), first);
};
