/** A bracketed PDDL text as nested lists of lower-case words. */
type Expression = string | readonly Expression[];

interface GroundAction {
  readonly name: string;
  readonly needs: readonly string[];
  readonly gives: readonly string[];
  readonly ends: readonly string[];
  readonly cost: number;
}

/** What does a planner find? Least total cost and the action names, or no cost where the goal cannot be reached. */
export interface PddlPlan {
  readonly cost: number | undefined;
  readonly names: readonly string[];
}

/** Reads brackets and words; comments run from a semicolon to the end of the line. */
function readExpression(text: string): Expression {
  const words =
    text
      .replace(/;[^\n]*/g, '')
      .toLowerCase()
      .match(/[()]|[^\s()]+/g) ?? [];
  const stack: Expression[][] = [[]];
  for (const word of words) {
    if (word === '(') stack.push([]);
    else if (word === ')') {
      const closed = stack.pop() ?? [];
      stack.at(-1)?.push(closed);
    } else stack.at(-1)?.push(word);
  }
  if (stack.length !== 1) throw new Error('brackets do not match');
  return stack[0]?.[0] ?? '';
}

function list(expression: Expression | undefined): readonly Expression[] {
  if (expression === undefined || typeof expression === 'string') throw new Error(`no list: ${String(expression)}`);
  return expression;
}

function conjuncts(expression: Expression | undefined): readonly (readonly Expression[])[] {
  const items = list(expression);
  return (items[0] === 'and' ? items.slice(1) : [items]).map(list);
}

function section(items: readonly Expression[], head: string): readonly Expression[] {
  return list(items.find((item) => Array.isArray(item) && item[0] === head));
}

function groundAction(items: readonly Expression[], known: ReadonlySet<string>): GroundAction {
  const part = (key: string) => items[items.indexOf(key) + 1];
  if (list(part(':parameters')).length > 0) throw new Error('only actions without parameters are read');
  const needs = conjuncts(part(':precondition')).map((fact) => String(fact[0]));
  const effects = conjuncts(part(':effect'));
  const ends = effects.filter(([head]) => head === 'not').map((effect) => String(list(effect[1])[0]));
  const increase = effects.find(([head]) => head === 'increase');
  const gives = effects.filter(([head]) => head !== 'not' && head !== 'increase').map(([fact]) => String(fact));
  for (const fact of [...needs, ...ends, ...gives]) if (!known.has(fact)) throw new Error(`undeclared ${fact}`);
  return { name: String(items[1]), needs, gives, ends, cost: Number(increase?.[2]) };
}

/**
 * Solves parameterless PDDL with positive preconditions and action costs by uniform-cost search over fact sets. Reads the
 * two texts alone and knows nothing of the writer; exponential, for small problems.
 */
export function planPddl(domainText: string, problemText: string): PddlPlan {
  const domain = list(readExpression(domainText));
  const problem = list(readExpression(problemText));
  const known = new Set(
    section(domain, ':predicates')
      .slice(1)
      .map((item) => String(list(item)[0])),
  );
  const actions = domain.map((item) => (Array.isArray(item) && item[0] === ':action' ? item : undefined));
  const grounded = actions.filter((item) => item !== undefined).map((item) => groundAction(item, known));
  const initial = section(problem, ':init').slice(1).map(list);
  const start = initial.filter(([head]) => head !== '=').map(([fact]) => String(fact));
  const goal = conjuncts(section(problem, ':goal')[1]).map((fact) => String(fact[0]));
  return cheapestPlan(start, goal, grounded);
}

function cheapestPlan(start: readonly string[], goal: readonly string[], actions: readonly GroundAction[]): PddlPlan {
  const keyOf = (facts: Iterable<string>) => [...facts].sort().join(' ');
  const open = new Map([[keyOf(start), { facts: new Set(start), cost: 0, names: [] as readonly string[] }]]);
  const done = new Set<string>();
  while (open.size > 0) {
    const [key, node] = [...open].reduce((least, next) => (next[1].cost < least[1].cost ? next : least));
    open.delete(key);
    done.add(key);
    if (goal.every((fact) => node.facts.has(fact))) return { cost: node.cost, names: node.names };
    for (const action of actions.filter(({ needs }) => needs.every((fact) => node.facts.has(fact)))) {
      const facts = new Set([...node.facts].filter((fact) => !action.ends.includes(fact)));
      for (const fact of action.gives) facts.add(fact);
      const nextKey = keyOf(facts);
      const cost = node.cost + action.cost;
      if (done.has(nextKey) || (open.get(nextKey)?.cost ?? Number.POSITIVE_INFINITY) <= cost) continue;
      open.set(nextKey, { facts, cost, names: [...node.names, action.name] });
    }
  }
  return { cost: undefined, names: [] };
}
