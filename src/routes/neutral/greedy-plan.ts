import { CostQueue } from './cost-queue.ts';
import type { SearchSpace } from './search-space.ts';

/** A plan that need not be good, and its cost [ms]. */
export interface GreedyPlan {
  readonly cost: number;
  readonly plan: readonly number[];
}

/**
 * For each fact, the action that gives it at the least sum of costs, each need counted on its own (Bonet & Geffner's
 * additive estimate); -1 where there is none. Following it from the target never runs into a circle, since what an
 * action needs has its giver before.
 */
const cheapestGivers = (space: SearchSpace): Int32Array => {
  const { factCount, actionCount, needs, gives, needers, cost, startTool, anyPickup } = space;
  const best = new Float64Array(factCount).fill(Number.POSITIVE_INFINITY);
  const giver = new Int32Array(factCount).fill(-1);
  const done = new Uint8Array(factCount);
  const sum = new Float64Array(actionCount);
  const open = new Int32Array(actionCount);
  const queue = new CostQueue(1024);
  const offer = (action: number): void => {
    const total =
      (sum[action] as number) + (cost[action] as number) + (anyPickup[startTool[action] as number] as number);
    for (let g = gives.from[action] as number; g < (gives.from[action + 1] as number); g++) {
      const fact = gives.items[g] as number;
      if (done[fact] === 1 || total >= (best[fact] as number)) continue;
      best[fact] = total;
      giver[fact] = action;
      queue.push(total, fact);
    }
  };
  for (let action = 0; action < actionCount; action++) {
    open[action] = (needs.from[action + 1] as number) - (needs.from[action] as number);
    if (open[action] === 0) offer(action);
  }
  for (let fact = queue.pop(); fact >= 0; fact = queue.pop()) {
    if (done[fact] === 1) continue;
    done[fact] = 1;
    for (let n = needers.from[fact] as number; n < (needers.from[fact + 1] as number); n++) {
      const action = needers.items[n] as number;
      sum[action] = (sum[action] as number) + queue.cost;
      open[action] = (open[action] as number) - 1;
      if (open[action] === 0) offer(action);
    }
  }
  return giver;
};

/** The actions that the target asks for by those givers; undefined when a fact has none. */
const chosenActions = (space: SearchSpace): number[] | undefined => {
  const { needs, target } = space;
  const giver = cheapestGivers(space);
  const chosen = new Set<number>();
  const stack = [...target];
  for (let fact = stack.pop(); fact !== undefined; fact = stack.pop()) {
    const action = giver[fact] as number;
    if (action < 0) return undefined;
    if (chosen.has(action)) continue;
    chosen.add(action);
    for (let n = needs.from[action] as number; n < (needs.from[action + 1] as number); n++)
      stack.push(needs.items[n] as number);
  }
  return [...chosen].sort((a, b) => a - b);
};

/**
 * Some plan, fast, so that there is one whatever the time limit: the cheapest givers taken one by one, ordered so that
 * all work at hand is done before the next tool is taken up, then the tool with most work. Undefined when none exists.
 */
export const greedyPlan = (space: SearchSpace): GreedyPlan | undefined => {
  const { needs, gives, startTool, endTool, cost, changeover, toolCount } = space;
  let waiting = chosenActions(space);
  if (waiting === undefined) return undefined;
  const holds = new Uint8Array(space.factCount);
  const isReady = (action: number): boolean => {
    for (let n = needs.from[action] as number; n < (needs.from[action + 1] as number); n++)
      if (holds[needs.items[n] as number] === 0) return false;
    return true;
  };
  const plan: number[] = [];
  let hand = 0;
  let spent = 0;
  while (waiting.length > 0) {
    const ready: number[] = waiting.filter(isReady);
    const next =
      ready.find((action) => startTool[action] === 0 || startTool[action] === hand) ?? mostWork(space, ready);
    const tool = startTool[next] as number;
    spent += (cost[next] as number) + (tool === 0 ? 0 : (changeover[hand * (toolCount + 1) + tool] as number));
    if (endTool[next] !== 0) hand = endTool[next] as number;
    plan.push(next);
    for (let g = gives.from[next] as number; g < (gives.from[next + 1] as number); g++)
      holds[gives.items[g] as number] = 1;
    waiting = waiting.filter((action) => action !== next);
  }
  return { cost: spent, plan };
};

/** The first action of the tool that most of these use. */
const mostWork = ({ startTool, toolCount }: SearchSpace, ready: readonly number[]): number => {
  const work = new Int32Array(toolCount + 1);
  for (const action of ready) work[startTool[action] as number] = (work[startTool[action] as number] as number) + 1;
  const tool = work.indexOf(Math.max(...work));
  return ready.find((action) => startTool[action] === tool) as number;
};
