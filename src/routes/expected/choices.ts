import type { Choice } from './and-or.ts';
import { type Bits, hasBit, isWithin, meets, removeBit, union } from './bits.ts';
import { type LazyRun, lazyRun } from './lazy-moves.ts';
import type { Move, MoveTable } from './moves.ts';
import { isOpenMove, isSure } from './reach.ts';
import { isNoWorse, type KnownStates, type WorkState, workState } from './work-state.ts';

/** What do the two bad ends cost, as time [ms]? They should not be cheaper than the work they spare, or failing pays. */
export interface Losses {
  readonly damageMilliseconds: number;
  readonly strandedMilliseconds: number;
}

/** What is made as small as possible first? Expected time with losses, or the chance of damage; the other decides ties. */
export type Aim = 'least-time' | 'least-damage';

/** The problem of one target with what it is judged by. */
export interface PlanSetting {
  readonly table: MoveTable;
  readonly losses: Losses;
  readonly aim: Aim;
  /** States met in this search. */
  readonly known: KnownStates;
}

/** A choice of the planner: lazy moves, then one move; without a move the lazy ones end the work. */
export interface MoveChoice extends Choice<WorkState> {
  readonly run: readonly Move[];
  readonly move: Move | undefined;
  readonly pickupMilliseconds: number;
}

/** Probabilities below this are rounding of 1 - success - damage. */
const NO_CHANCE = 1e-12;

/** How do time [ms] and damage become the two figures of an aim? */
export const worthOf = (aim: Aim, time: number, damage: number): { readonly adds: number; readonly second: number } =>
  aim === 'least-time' ? { adds: time, second: damage } : { adds: damage, second: time };

/** What can be chosen in a state of the work? An ended state has one choice without children, its loss. */
export const moveChoices = (setting: PlanSetting, state: WorkState): readonly MoveChoice[] => {
  if (state.kind === 'reached') return [ending(setting, 0)];
  if (state.kind === 'stranded') return [ending(setting, setting.losses.strandedMilliseconds)];
  const { moves, target } = setting.table;
  const lazy = moves.filter((move, index) => move.isLazy && hasBit(state.open, index));
  const last = lazyRun(target, state.facts, lazy);
  if (last) return [choiceOf(setting, state, { run: last, move: undefined })];
  const choices: MoveChoice[] = [];
  for (const [index, move] of moves.entries()) {
    if (move.isLazy || !hasBit(state.open, index) || meets(move.waitsFor, state.open)) continue;
    const isReady = isWithin(move.needs, state.facts);
    const run = isReady ? { moves: [], facts: state.facts } : lazyRun(move.needs, state.facts, lazy);
    if (!run || !isOpenMove(move, run.facts)) continue;
    const choice = choiceOf(setting, state, { run, move });
    if (isFreeNow(setting.table, state, move)) return [choice];
    choices.push(choice);
  }
  return choices;
};

/** Rule 3: is this a sure move that must be made anyway, costs no tool change now, and can it spare nothing to wait? */
const isFreeNow = (table: MoveTable, state: WorkState, move: Move): boolean => {
  if (!state.isSafe || !move.isNeeded || !isSure(move)) return false;
  if (move.firstTools === 0) return true;
  const isInHand = (table.pickup[state.held]?.[move.firstTools] ?? 0) === 0;
  return isInHand && isNoWorse(table, state.open, { one: move.lastTools, other: state.held });
};

const ending = (setting: PlanSetting, loss: number): MoveChoice => ({
  name: 'end',
  ...worthOf(setting.aim, loss, 0),
  children: [],
  run: [],
  move: undefined,
  pickupMilliseconds: 0,
});

interface Taken {
  readonly run: LazyRun;
  readonly move: Move | undefined;
}

const choiceOf = (setting: PlanSetting, state: WorkState, { run, move }: Taken): MoveChoice => {
  const { table, losses, aim } = setting;
  const pickupMilliseconds = move?.firstTools ? (table.pickup[state.held]?.[move.firstTools] ?? 0) : 0;
  const damage = move?.damage ?? 0;
  const lazyTime = run.moves.reduce((sum, lazy) => sum + lazy.milliseconds, 0);
  const time = lazyTime + pickupMilliseconds + (move?.milliseconds ?? 0) + damage * losses.damageMilliseconds;
  return {
    name: move?.members.at(-1)?.action.id ?? 'finish',
    ...worthOf(aim, time, damage),
    children: [outcomes(setting, state, { run, move })],
    run: run.moves,
    move,
    pickupMilliseconds,
  };
};

const outcomes = (
  setting: PlanSetting,
  state: WorkState,
  { run, move }: Taken,
): Choice<WorkState>['children'][number] => {
  const { table, known } = setting;
  const open = withoutMoves(table, state.open, move ? [...run.moves, move] : run.moves);
  const held = move?.lastTools || state.held;
  const success = move?.success ?? 1;
  const failure = 1 - success - (move?.damage ?? 0);
  const gained = move ? union(run.facts, move.gives) : run.facts;
  const found = [{ probability: success, state: workState(table, { facts: gained, open, held }, known) }];
  if (failure > NO_CHANCE)
    found.push({ probability: failure, state: workState(table, { facts: run.facts, open, held }, known) });
  return found;
};

const withoutMoves = (table: MoveTable, open: Bits, done: readonly Move[]): Bits => {
  const left = open.slice();
  for (const move of done) removeBit(left, table.moves.indexOf(move));
  return left;
};
