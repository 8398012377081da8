import type { CompiledAction, CompiledProblem } from './compiled-problem.ts';

/** A problem put into an order of its own, and where each of its actions stood before. */
export interface OrderedProblem {
  readonly problem: CompiledProblem;
  /** Index in the original problem of each action here. */
  readonly original: readonly number[];
}

/** Colour by what is alike: equal keys get equal numbers, numbered by the keys' order. */
const rank = (keys: readonly string[]): number[] => {
  const sorted = [...new Set(keys)].sort();
  const number = new Map(sorted.map((key, index) => [key, index]));
  return keys.map((key) => number.get(key) ?? 0);
};

const list = (colours: readonly number[], of: readonly number[]): string =>
  of
    .map((index) => colours[index] ?? 0)
    .sort((a, b) => a - b)
    .join(',');

/** Tools told apart by their changeovers to and from others, and by the actions that use them. */
const colourTools = (problem: CompiledProblem, tools: readonly number[], actions: readonly number[]): number[] => {
  const width = problem.toolCount + 1;
  const uses: number[][] = tools.map(() => []);
  problem.actions.forEach((action, index) => {
    uses[action.startTool]?.push(index);
    uses[action.endTool]?.push(index);
  });
  const pairs = (tool: number): string[] =>
    tools.map((other, at) => {
      const to = problem.changeover[tool * width + at];
      return `${other}:${to}:${problem.changeover[at * width + tool]}`;
    });
  return rank(
    tools.map((own, tool) => `${tool === 0}|${own}|${pairs(tool).sort().join(';')}|${list(actions, uses[tool] ?? [])}`),
  );
};

const colourFacts = (problem: CompiledProblem, facts: readonly number[], actions: readonly number[]): number[] => {
  const needed: number[][] = facts.map(() => []);
  const given: number[][] = facts.map(() => []);
  problem.actions.forEach((action, index) => {
    for (const fact of action.needs) needed[fact]?.push(index);
    for (const fact of action.gives) given[fact]?.push(index);
  });
  return rank(
    facts.map((own, fact) => `${own}|${list(actions, needed[fact] ?? [])}|${list(actions, given[fact] ?? [])}`),
  );
};

const colourActions = (problem: CompiledProblem, facts: readonly number[], tools: readonly number[]): number[] =>
  rank(
    problem.actions.map(({ cost, startTool, endTool, needs, gives }) =>
      [cost, tools[startTool], tools[endTool], list(facts, needs), list(facts, gives)].join('|'),
    ),
  );

/** The order that keys give, first keys first; those alike stay as they were. Answers the old index of each new one. */
const sortBy = (...keys: readonly (readonly number[])[]): number[] =>
  [...(keys[0] ?? []).keys()].sort((a, b) => {
    for (const key of keys) if (key[a] !== key[b]) return (key[a] ?? 0) - (key[b] ?? 0);
    return a - b;
  });

/** In how many rounds can an action be done at the earliest, all that is possible being done in each? */
const earliestRounds = (problem: CompiledProblem): number[] => {
  const { actions } = problem;
  const rounds = new Array<number>(actions.length).fill(actions.length);
  const open = actions.map(({ needs }) => needs.length);
  const needers: number[][] = Array.from({ length: problem.factCount }, () => []);
  actions.forEach(({ needs }, index) => {
    for (const fact of needs) needers[fact]?.push(index);
  });
  const holds = new Uint8Array(problem.factCount);
  let ready = [...actions.keys()].filter((index) => open[index] === 0);
  for (let round = 0; ready.length > 0; round++) {
    const next: number[] = [];
    for (const index of ready) {
      rounds[index] = round;
      for (const fact of actions[index]?.gives ?? []) {
        if (holds[fact] === 1) continue;
        holds[fact] = 1;
        for (const needer of needers[fact] ?? []) {
          open[needer] = (open[needer] ?? 0) - 1;
          if (open[needer] === 0) next.push(needer);
        }
      }
    }
    ready = next;
  }
  return rounds;
};

const invert = (order: readonly number[]): number[] => {
  const inverse = new Array<number>(order.length).fill(0);
  order.forEach((old, now) => {
    inverse[old] = now;
  });
  return inverse;
};

const permute = (problem: CompiledProblem, factOrder: number[], toolOrder: number[]): CompiledProblem => {
  const fact = invert(factOrder);
  const tool = invert(toolOrder);
  const facts = (of: readonly number[]): number[] => of.map((index) => fact[index] ?? 0).sort((a, b) => a - b);
  const width = problem.toolCount + 1;
  const changeover = toolOrder.flatMap((from) => toolOrder.map((to) => problem.changeover[from * width + to] ?? 0));
  const actions = problem.actions.map(
    (action): CompiledAction => ({
      ...action,
      startTool: tool[action.startTool] ?? 0,
      endTool: tool[action.endTool] ?? 0,
      needs: facts(action.needs),
      gives: facts(action.gives),
    }),
  );
  return { ...problem, actions, target: facts(problem.target), changeover };
};

/** Larger problems are taken in the order they come in: colouring them would cost more than it is worth. */
const MOST_ACTIONS = 4000;

/**
 * In which order does the search take actions, facts and tools, so that neither names nor the file's order decide? By
 * what each is: colours are refined by costs, needs, gives and changeovers until they tell no more apart. What stays
 * alike is left in the order given, and mostly makes no difference.
 */
export const canonicalOrder = (problem: CompiledProblem): OrderedProblem => {
  if (problem.actions.length > MOST_ACTIONS) return { problem, original: [...problem.actions.keys()] };
  const targets = new Set(problem.target);
  let facts: number[] = Array.from({ length: problem.factCount }, (_, fact) => (targets.has(fact) ? 1 : 0));
  let tools: number[] = Array.from({ length: problem.toolCount + 1 }, (_, tool) => (tool === 0 ? 0 : 1));
  let actions = colourActions(problem, facts, tools);
  for (let count = 0, last = -1; count !== last; ) {
    last = count;
    facts = colourFacts(problem, facts, actions);
    tools = colourTools(problem, tools, actions);
    actions = colourActions(problem, facts, tools);
    count = new Set(facts).size + new Set(tools).size + new Set(actions).size;
  }
  const original = sortBy(earliestRounds(problem), actions);
  const toolOrder = [0, ...sortBy(tools).filter((tool) => tool !== 0)];
  const sorted = { ...problem, actions: original.map((index) => problem.actions[index] as CompiledAction) };
  return { problem: permute(sorted, sortBy(facts), toolOrder), original };
};
