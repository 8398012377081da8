import type { Fact, RouteAction, RouteAtom, RouteProblem } from '../problem/route-problem.ts';

/** Rounds of refinement at most. Beyond a few, actions that still look alike are alike for every practical purpose, and ids decide. */
const ROUNDS = 4;

type Colours<K> = Map<K, number>;

/** Ranks of the given descriptions: equal descriptions share a rank, and ranks follow the descriptions' order, not the keys'. */
const ranks = <K>(described: readonly (readonly [K, string])[]): Colours<K> => {
  const sorted = [...new Set(described.map(([, text]) => text))].sort();
  const rank = new Map(sorted.map((text, index) => [text, index]));
  return new Map(described.map(([key, text]) => [key, rank.get(text) ?? 0]));
};

const byNumber = (a: number, b: number): number => a - b;

const sortedColours = <K>(keys: readonly K[], colours: Colours<K>): string =>
  keys
    .map((key) => colours.get(key) ?? 0)
    .sort(byNumber)
    .join('.');

const describeAtom = (atom: RouteAtom, tools: Colours<string>): string =>
  [
    atom.do,
    sortedColours(atom.tools, tools),
    atom.milliseconds ?? '?',
    atom.place === undefined ? '' : 'p',
    atom.afterRelease ? 'a' : '',
    atom.releases ? `${atom.releases.count}${atom.releases.asItems ? 'i' : ''}` : '',
    atom.removes?.becomes ?? '',
    atom.remote ?? '',
  ].join(',');

const describeAction = (action: RouteAction, tools: Colours<string>): string =>
  [
    action.kind,
    action.leaves ?? '?',
    action.shown ?? '?',
    action.atoms.map((atom) => describeAtom(atom, tools)).join(';'),
    action.odds ? JSON.stringify([action.odds.success, action.odds.damage, action.odds.tries]) : '',
  ].join('|');

const factsOf = (action: RouteAction): Fact[] => [...action.gives, ...action.needs, ...action.anyOf.flat(2)];

interface Colouring {
  readonly tools: Colours<string>;
  readonly facts: Colours<Fact>;
  readonly actions: Colours<RouteAction>;
}

/** The first colours: tools by what taking them up costs, facts by whether the law weighs their part, actions by their atoms. */
const firstColours = (problem: RouteProblem): Colouring => {
  const tools = ranks(
    problem.tools.map((tool) => [tool.id, `${tool.pickupMilliseconds}${tool.holdingAid ? 'h' : ''}`] as const),
  );
  const priority = new Set(problem.priorityParts);
  const facts = ranks(
    [...new Set(problem.actions.flatMap(factsOf))].map((fact) => {
      const slash = fact.indexOf('/');
      return [fact, `${fact.slice(0, slash)}${priority.has(fact.slice(slash + 1)) ? '!' : ''}`] as const;
    }),
  );
  const actions = ranks(problem.actions.map((action) => [action, describeAction(action, tools)] as const));
  return { tools, facts, actions };
};

const refine = (problem: RouteProblem, old: Colouring): Colouring => {
  const users = new Map<string, RouteAction[]>();
  const around = new Map<Fact, RouteAction[][]>();
  for (const action of problem.actions) {
    for (const tool of new Set(action.atoms.flatMap((atom) => atom.tools))) push(users, tool, action);
    for (const fact of action.gives) aroundFact(around, fact)[0]?.push(action);
    for (const fact of action.needs) aroundFact(around, fact)[1]?.push(action);
    for (const fact of new Set(action.anyOf.flat(2))) aroundFact(around, fact)[2]?.push(action);
  }
  const colour = (list: readonly RouteAction[]): string => sortedColours(list, old.actions);
  const tools = ranks(
    problem.tools.map(({ id }) => [id, `${pad(old.tools.get(id))}:${colour(users.get(id) ?? [])}`] as const),
  );
  const facts = ranks(
    [...around].map(([fact, lists]) => [fact, `${pad(old.facts.get(fact))}:${lists.map(colour).join('/')}`] as const),
  );
  const actions = ranks(
    problem.actions.map((action) => [action, `${pad(old.actions.get(action))}:${neighbours(action, old)}`] as const),
  );
  return { tools, facts, actions };
};

const neighbours = (action: RouteAction, { facts, tools }: Colouring): string => {
  const clauses = action.anyOf.map((clause) =>
    clause
      .map((alternative) => sortedColours(alternative, facts))
      .sort()
      .join('|'),
  );
  return [
    sortedColours(action.gives, facts),
    sortedColours(action.needs, facts),
    clauses.sort().join('&'),
    action.atoms.map((atom) => sortedColours(atom.tools, tools)).join(';'),
  ].join('/');
};

const push = <K, V>(map: Map<K, V[]>, key: K, value: V): void => {
  const list = map.get(key);
  if (list) list.push(value);
  else map.set(key, [value]);
};

const aroundFact = (map: Map<Fact, RouteAction[][]>, fact: Fact): RouteAction[][] => {
  const lists = map.get(fact) ?? [[], [], []];
  map.set(fact, lists);
  return lists;
};

/** Keeps the rank of the round before in front, so that refinement only ever splits. */
const pad = (rank: number | undefined): string => String(rank ?? 0).padStart(6, '0');

/**
 * In which order do a problem's actions stand, whatever they are called and however they were listed? Colour refinement on
 * actions, facts and tools; ids decide only among actions that it cannot tell apart. Cost: a few sorts of the problem.
 */
export const structuralOrder = (problem: RouteProblem): readonly RouteAction[] => {
  let colours = firstColours(problem);
  for (let round = 0, apart = 0; round < ROUNDS; round++) {
    const now = new Set(colours.actions.values()).size;
    if (now === problem.actions.length || now === apart) break;
    apart = now;
    colours = refine(problem, colours);
  }
  return [...problem.actions].sort(
    (a, b) => (colours.actions.get(a) ?? 0) - (colours.actions.get(b) ?? 0) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0),
  );
};
