import { evaluateAndOr, type SolvedState, type SolvedStates } from './and-or.ts';
import { type Bits, hasBit, isWithin, members, without } from './bits.ts';
import { type MoveChoice, moveChoices, type PlanSetting } from './choices.ts';
import type { Move, MoveTable } from './moves.ts';
import { reachedFacts } from './reach.ts';
import { relaxedPlan } from './relaxed-plan.ts';
import type { WorkState } from './work-state.ts';

/**
 * Which policy can be followed where no best one was found? Always the next move of a plan made as if all went well, each
 * way weighed by its time a success; from a state already solved on, the best policy. Adds to `solved`.
 */
export const greedyPolicy = (
  setting: PlanSetting,
  root: WorkState,
  solved: SolvedStates<WorkState, MoveChoice>,
): SolvedState<WorkState, MoveChoice> =>
  evaluateAndOr<WorkState, MoveChoice>(
    { aim: 'least', key: (state) => state.key, choices: (state) => [greedyChoice(setting, state)] },
    root,
    solved,
  );

const greedyChoice = (setting: PlanSetting, state: WorkState): MoveChoice => {
  const choices = moveChoices(setting, state);
  const only = choices[0];
  if (!only) throw new RangeError('a state of the work offers no choice');
  if (choices.length === 1) return only;
  const planned = relaxedPlan(setting, state);
  const rank = ({ move, pickupMilliseconds }: MoveChoice): readonly number[] => [
    move && planned.has(move) ? 0 : 1,
    pickupMilliseconds > 0 ? 1 : 0,
    move ? move.milliseconds / Math.max(move.success, 1e-9) : 0,
  ];
  return choices.reduce((best, choice) => (isLower(rank(choice), rank(best)) ? choice : best), only);
};

const isLower = (a: readonly number[], b: readonly number[]): boolean => {
  for (const [index, value] of a.entries()) {
    const other = b[index] ?? 0;
    if (value !== other) return value < other;
  }
  return false;
};

/**
 * What does no policy better in this state? For time: a policy ends well with chance at most q, the product over the facts
 * nothing can do without of the chance that any of their ways works, and then spends at least the time N of the cheapest
 * way of each and one take-up of each tool that all ways want; else it ends with a loss. For damage: 0.
 */
export const lowerBound = (setting: PlanSetting, state: WorkState): number => {
  if (setting.aim === 'least-damage' || state.kind !== 'working') return 0;
  const { table, losses } = setting;
  const least = Math.min(losses.damageMilliseconds, losses.strandedMilliseconds);
  let time = 0;
  let chance = 1;
  const sets = new Set<number>();
  for (const givers of landmarkGivers(table, state)) {
    time += Math.min(...givers.map(wholeMilliseconds));
    chance *= 1 - givers.reduce((product, move) => product * (1 - move.success), 1);
    const first = givers[0]?.firstTools ?? 0;
    const isSingle = table.toolSets[first]?.length === 1;
    if (isSingle && givers.every((move) => move.firstTools === first)) sets.add(first);
  }
  for (const set of sets) time += table.pickup[state.held]?.[set] ?? 0;
  return least >= time ? chance * time + (1 - chance) * least : least;
};

const wholeMilliseconds = (move: Move): number => move.members.reduce((sum, member) => sum + member.milliseconds, 0);

/** Which sets of moves, none in two sets, must each give one success before the target? */
const landmarkGivers = (table: MoveTable, state: WorkState): readonly (readonly Move[])[] => {
  const open = table.moves.filter((_, index) => hasBit(state.open, index));
  const used = new Set<Move>();
  const found: (readonly Move[])[] = [];
  for (const fact of members(wantedFacts(open, state.facts, table))) {
    const givers = open.filter((move) => hasBit(move.gives, fact));
    if (givers.length === 0 || givers.some((move) => used.has(move))) continue;
    const others = open.filter((move) => !givers.includes(move));
    if (isWithin(table.target, reachedFacts(others, state.facts))) continue;
    for (const move of givers) used.add(move);
    found.push(givers);
  }
  return found;
};

const wantedFacts = (open: readonly Move[], facts: Bits, table: MoveTable): Bits => {
  const all = open.reduce(
    (sum, move) => sum.map((word, index) => word | (move.gives[index] ?? 0)),
    table.target.slice(),
  );
  return without(all, facts);
};
