import { actionWork, pickupMilliseconds } from '../expected/action-work.ts';
import type { CompiledAction, CompiledProblem } from '../neutral/compiled-problem.ts';
import { type SolveLimits, solveCompiled } from '../neutral/solve-compiled.ts';
import type { Fact, RouteAction, RouteProblem } from '../problem/route-problem.ts';
import { isAdmitted } from '../search/usable.ts';

/** The quickest way to some targets, or the best found with its bound [integer ms]. */
export interface LeastTime {
  readonly kind: 'found' | 'unreachable' | 'not-found';
  readonly milliseconds?: number;
  readonly bound: number;
  readonly proved: boolean;
  /** Action ids in order. */
  readonly actions: readonly string[];
  /** Actions whose time is not known and counted as nothing. */
  readonly withoutTime: readonly string[];
}

/** Which actions may stand on a route? Those shown, and none that destroys its fastener. */
export const isUsable = (action: RouteAction): boolean => isAdmitted(action, {});

/** Numbers for names: facts, tool sets, and clauses as facts of their own. */
class Numbering {
  readonly facts = new Map<string, number>();
  readonly hands: (readonly string[])[] = [];
  private readonly handNumbers = new Map<string, number>();

  fact(name: string): number {
    const known = this.facts.get(name);
    if (known !== undefined) return known;
    this.facts.set(name, this.facts.size);
    return this.facts.size - 1;
  }

  hand(tools: readonly string[] | undefined): number {
    if (!tools) return 0;
    const key = tools.join('\n');
    const known = this.handNumbers.get(key);
    if (known !== undefined) return known;
    this.hands.push(tools);
    this.handNumbers.set(key, this.hands.length);
    return this.hands.length;
  }
}

/**
 * How does a device's problem look to the neutral solver? Fused work keeps the tool it starts with and the one it ends with;
 * tools in hand at once are one; a clause of alternatives becomes a fact that several free actions of bare hands give.
 */
const compileRoutes = (problem: RouteProblem, targets: readonly Fact[]): CompiledProblem => {
  const numbers = new Numbering();
  const tools = new Map(problem.tools.map((tool) => [tool.id, tool]));
  const actions: CompiledAction[] = [];
  for (const action of problem.actions) {
    if (!isUsable(action)) continue;
    const clauses = action.anyOf.map((clause, index) => clauseFact(action, { clause, index, numbers, actions }));
    const work = actionWork(action, tools);
    actions.push({
      id: action.id,
      cost: work.milliseconds,
      startTool: numbers.hand(work.firstTools),
      endTool: numbers.hand(work.lastTools),
      needs: [...new Set([...action.needs.map((fact) => numbers.fact(fact)), ...clauses])],
      gives: [...new Set(action.gives.map((fact) => numbers.fact(fact)))],
    });
  }
  const target = targets.map((fact) => numbers.fact(fact));
  const width = numbers.hands.length + 1;
  const changeover = new Array<number>(width * width).fill(0);
  for (let from = 0; from < width; from++)
    for (let to = 1; to < width; to++)
      changeover[from * width + to] =
        from === to ? 0 : pickupMilliseconds(numbers.hands[from - 1] ?? [], numbers.hands[to - 1] ?? [], tools);
  return { factCount: numbers.facts.size, toolCount: numbers.hands.length, actions, target, changeover };
};

const clauseFact = (
  action: RouteAction,
  at: {
    readonly clause: readonly (readonly Fact[])[];
    readonly index: number;
    readonly numbers: Numbering;
    readonly actions: CompiledAction[];
  },
): number => {
  const fact = at.numbers.fact(`clause/${action.subject}/${at.index}`);
  const known = at.actions.some((other) => other.gives.length === 1 && other.gives[0] === fact);
  if (!known)
    for (const alternative of at.clause)
      at.actions.push({
        id: '',
        cost: 0,
        startTool: 0,
        endTool: 0,
        needs: [...new Set(alternative.map((name) => at.numbers.fact(name)))],
        gives: [fact],
      });
  return fact;
};

/** By which route are the targets reached in the least time, taking up tools included? Proved, or the best found with its bound. */
export const leastTime = (problem: RouteProblem, targets: readonly Fact[], limits: SolveLimits = {}): LeastTime => {
  const compiled = compileRoutes(problem, targets);
  const solved = solveCompiled(compiled, limits);
  const actions = solved.plan.map((index) => compiled.actions[index]?.id ?? '').filter((id) => id !== '');
  if (solved.cost === undefined)
    return {
      kind: solved.proved ? 'unreachable' : 'not-found',
      bound: solved.bound,
      proved: solved.proved,
      actions: [],
      withoutTime: [],
    };
  const byId = new Map(problem.actions.map((action) => [action.id, action]));
  const withoutTime = actions.filter((id) => byId.get(id)?.atoms.some((atom) => atom.milliseconds === undefined));
  return { kind: 'found', milliseconds: solved.cost, bound: solved.bound, proved: solved.proved, actions, withoutTime };
};
