/**
 * An independent judge of plans in the neutral format: written from the format's description alone, imports nothing of
 * the planner, and takes the slow way by definition.
 */

/** The neutral format as the judge reads it; `endTool` is what a fused action leaves in hand, where it differs. */
export interface RefereeProblem {
  readonly tools: readonly { readonly id: string; readonly pickupSeconds: number }[];
  readonly actions: readonly RefereeAction[];
  readonly target: readonly string[];
  readonly firstPickupFree?: boolean;
  readonly changeover?: readonly (readonly [string, string, number])[];
}

/** An action as the judge reads it. */
export interface RefereeAction {
  readonly id: string;
  readonly tool: string | null;
  readonly endTool?: string;
  readonly seconds: number;
  readonly needs: readonly string[];
  readonly gives: readonly string[];
}

const inMilliseconds = (seconds: number): number => Math.round(seconds * 1000);

/** What does going from what is in hand to this tool cost [ms]? Hand `undefined`: nothing taken up yet. */
const changeCost = (problem: RefereeProblem, hand: string | undefined, tool: string): number => {
  if (hand === tool) return 0;
  if (hand === undefined && problem.firstPickupFree === true) return 0;
  const row = problem.changeover?.find(([from, to]) => from === hand && to === tool);
  if (row !== undefined) return inMilliseconds(row[2]);
  const found = problem.tools.find(({ id }) => id === tool);
  if (found === undefined) throw new Error(`the judge knows no tool ${tool}`);
  return inMilliseconds(found.pickupSeconds);
};

/** Replays a plan: its cost [ms], or why it is none. */
export const judge = (problem: RefereeProblem, sequence: readonly string[]): number | string => {
  const holds = new Set<string>();
  let hand: string | undefined;
  let cost = 0;
  for (const id of sequence) {
    const action = problem.actions.find((candidate) => candidate.id === id);
    if (action === undefined) return `there is no action ${id}`;
    const lacking = action.needs.find((fact) => !holds.has(fact));
    if (lacking !== undefined) return `${id} needs ${lacking}`;
    if (action.tool !== null) cost += changeCost(problem, hand, action.tool);
    hand = action.endTool ?? action.tool ?? hand;
    cost += inMilliseconds(action.seconds);
    for (const fact of action.gives) holds.add(fact);
  }
  const open = problem.target.find((fact) => !holds.has(fact));
  return open === undefined ? cost : `${open} is not reached`;
};

/** The least cost over all sequences [ms], by plain Dijkstra over (facts, tool in hand); undefined when there is none. */
export const exhaustiveOptimum = (problem: RefereeProblem): number | undefined => {
  const facts = [...new Set([...problem.target, ...problem.actions.flatMap((a) => [...a.needs, ...a.gives])])];
  const bit = (names: readonly string[]): bigint =>
    names.reduce((set, name) => set | (1n << BigInt(facts.indexOf(name))), 0n);
  const actions = problem.actions.map((a) => ({ ...a, needBits: bit(a.needs), giveBits: bit(a.gives) }));
  const target = bit(problem.target);
  const least = new Map<string, number>([['0|', 0]]);
  const done = new Set<string>();
  const layers = new Map<number, { holds: bigint; hand: string | undefined }[]>([
    [0, [{ holds: 0n, hand: undefined }]],
  ]);
  while (layers.size > 0) {
    const cost = Math.min(...layers.keys());
    const layer = layers.get(cost) ?? [];
    const state = layer.pop();
    if (state === undefined) {
      layers.delete(cost);
      continue;
    }
    const name = `${state.holds}|${state.hand ?? ''}`;
    if (done.has(name)) continue;
    done.add(name);
    if ((state.holds & target) === target) return cost;
    for (const action of actions) {
      if ((state.holds & action.needBits) !== action.needBits) continue;
      const holds = state.holds | action.giveBits;
      const hand = action.endTool ?? action.tool ?? state.hand;
      if (holds === state.holds && hand === state.hand) continue;
      const change = action.tool === null ? 0 : changeCost(problem, state.hand, action.tool);
      const total = cost + change + inMilliseconds(action.seconds);
      const next = `${holds}|${hand ?? ''}`;
      if ((least.get(next) ?? Number.POSITIVE_INFINITY) <= total) continue;
      least.set(next, total);
      const list = layers.get(total) ?? [];
      list.push({ holds, hand });
      layers.set(total, list);
    }
  }
  return undefined;
};
