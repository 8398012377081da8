import type { Fact, RouteAction, RouteProblem, RouteTool } from '#routes/problem/route-problem';
import { actionWork, pickupMilliseconds } from './action-work.ts';
import { type Bits, bitsOf } from './bits.ts';
import { fuseMoves } from './fuse-moves.ts';
import { withLazyMoves } from './lazy-moves.ts';
import { type ModuleOrder, orderModules } from './order-modules.ts';
import { openAlternatives, relevantActions } from './relevant-actions.ts';
import { inStructuralOrder, type OrderedAction } from './structural-order.ts';

/** The chances of one try; what is missing from 1 is a try that fails and leaves the way exhausted. */
export interface TryChances {
  readonly success: number;
  readonly damage: number;
}

/** One action inside a move, with its own time [ms] and chances. */
export interface MoveMember extends TryChances {
  readonly action: RouteAction;
  readonly milliseconds: number;
  readonly firstTools: number;
  readonly lastTools: number;
}

/** What the planner may do at once: one action, or several that some best policy does one after the other anyway. */
export interface Move {
  readonly members: readonly MoveMember[];
  readonly needs: Bits;
  /** Clauses of alternatives; of each clause one alternative must hold. */
  readonly clauses: readonly (readonly Bits[])[];
  readonly gives: Bits;
  /** Once the first tools are in hand [ms]. All members but the last are sure. */
  readonly milliseconds: number;
  readonly success: number;
  readonly damage: number;
  /** Index of the tool set wanted first and left last; 0 is bare hands, and then what is held stays. */
  readonly firstTools: number;
  readonly lastTools: number;
  /** Sure, bare-handed and the only source of what it gives: done only right before something that needs it. */
  readonly isLazy: boolean;
  /** Moves, by index, that go before this one while they are of use. */
  readonly waitsFor: Bits;
  /** Known to be made on every course that reaches the target. */
  readonly isNeeded: boolean;
}

/** A problem made ready for one target. */
export interface MoveTable {
  readonly moves: readonly Move[];
  readonly factCount: number;
  readonly target: Bits;
  /** Pickup [ms] from the set in hand to the set wanted: `pickup[held][wanted]`; set 0 is empty hands. */
  readonly pickup: readonly (readonly number[])[];
  readonly toolSets: readonly (readonly string[])[];
}

/** How are moves made of a problem? */
export interface MoveOptions {
  /** The chances of an action's try. */
  readonly chances: (action: RouteAction) => TryChances;
  /** Leaves out orders that some best policy does without; modules go in this order. Left out, every order stays possible. */
  readonly modules?: ModuleOrder;
}

/**
 * What can be done toward the target, as bit sets? Only what can take part in reaching it; undefined when nothing can reach
 * it with a chance above 0. Throws a RangeError when the chances of an action sum to more than 1.
 */
export const moveTable = (problem: RouteProblem, target: Fact, options: MoveOptions): MoveTable | undefined => {
  const possible = problem.actions.filter((action) => checkedChances(action, options).success > 0);
  const relevant = relevantActions(possible, target);
  if (relevant.actions.length === 0) return undefined;
  const tools = new Map(problem.tools.map((tool) => [tool.id, tool]));
  const ordered = inStructuralOrder(
    relevant.actions.map((action) => orderedAction(action, tools, options)),
    target,
  );
  const numbers = numberFacts(ordered, relevant.facts, target);
  const toolSets = collectToolSets(ordered);
  const pickup = toolSets.map((held) => toolSets.map((wanted) => pickupMilliseconds(held, wanted, tools)));
  const moves = ordered.map((entry) => moveOf(entry, { numbers, toolSets, facts: relevant.facts }));
  const table = {
    moves,
    factCount: numbers.size,
    target: bitsOf(numbers.size, [numberOf(numbers, target)]),
    pickup,
    toolSets,
  };
  return options.modules ? orderModules(withLazyMoves(fuseMoves(table)), options.modules) : table;
};

const checkedChances = (action: RouteAction, options: MoveOptions): TryChances => {
  const chances = options.chances(action);
  const { success, damage } = chances;
  if (!(success >= 0 && damage >= 0 && success + damage <= 1 + 1e-9))
    throw new RangeError(`the chances of ${action.id} are no chances: success ${success}, damage ${damage}`);
  return chances;
};

const orderedAction = (
  action: RouteAction,
  tools: ReadonlyMap<string, RouteTool>,
  options: MoveOptions,
): OrderedAction => {
  const work = actionWork(action, tools);
  const used = [work.firstTools, work.lastTools].map((set) => set && pickupMilliseconds([], set, tools));
  return { action, work, ...options.chances(action), pickups: used.map((pickup) => pickup ?? -1) };
};

const numberFacts = (
  ordered: readonly OrderedAction[],
  relevant: ReadonlySet<Fact>,
  target: Fact,
): ReadonlyMap<Fact, number> => {
  const numbers = new Map<Fact, number>([[target, 0]]);
  for (const { action } of ordered)
    for (const fact of [...action.gives, ...action.needs, ...action.anyOf.flat(2)])
      if (relevant.has(fact) && !numbers.has(fact)) numbers.set(fact, numbers.size);
  return numbers;
};

const numberOf = (numbers: ReadonlyMap<Fact, number>, fact: Fact): number => {
  const number = numbers.get(fact);
  if (number === undefined) throw new RangeError(`the fact ${fact} has no number`);
  return number;
};

const setKey = (tools: readonly string[]): string => JSON.stringify([...tools].sort());

const collectToolSets = (ordered: readonly OrderedAction[]): readonly (readonly string[])[] => {
  const sets = new Map<string, readonly string[]>([[setKey([]), []]]);
  for (const { work } of ordered)
    for (const set of [work.firstTools, work.lastTools]) if (set) sets.set(setKey(set), [...set].sort());
  return [...sets.values()];
};

const moveOf = (
  { action, work, success, damage }: OrderedAction,
  scope: {
    readonly numbers: ReadonlyMap<Fact, number>;
    readonly toolSets: readonly (readonly string[])[];
    readonly facts: ReadonlySet<Fact>;
  },
): Move => {
  const { numbers, toolSets, facts } = scope;
  const toBits = (list: readonly Fact[]): Bits =>
    bitsOf(
      numbers.size,
      list.map((fact) => numberOf(numbers, fact)),
    );
  const setIndex = (set: readonly string[] | undefined): number =>
    set ? toolSets.findIndex((other) => setKey(other) === setKey(set)) : 0;
  const firstTools = setIndex(work.firstTools);
  const lastTools = setIndex(work.lastTools);
  const clauses = openAlternatives(action, facts);
  const forced = clauses.filter((clause) => clause.length === 1).flat(2);
  const { milliseconds } = work;
  return {
    members: [{ action, milliseconds, success, damage, firstTools, lastTools }],
    needs: toBits([...action.needs, ...forced]),
    clauses: clauses.filter((clause) => clause.length > 1).map((clause) => clause.map(toBits)),
    gives: toBits(action.gives.filter((fact) => facts.has(fact))),
    milliseconds,
    success,
    damage,
    firstTools,
    lastTools,
    isLazy: false,
    waitsFor: [0],
    isNeeded: false,
  };
};
