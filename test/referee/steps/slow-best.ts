import { type SlowAtom, type SlowRules, slowCount } from './slow-count.ts';

/** The best-found route by trying every sequence of actions: a referee that imports nothing from the product. */

/** One thing that may be done. */
export interface SlowAction {
  readonly id: string;
  readonly atoms: readonly SlowAtom[];
  readonly needs: readonly string[];
  readonly anyOf: readonly (readonly (readonly string[])[])[];
  readonly gives: readonly string[];
  readonly leaves?: string;
  readonly shown?: string;
}

/** A device: its tools, what may be done, the parts the law weighs. */
export interface SlowProblem {
  readonly tools: readonly { readonly id: string; readonly pickupMilliseconds: number; readonly holdingAid: boolean }[];
  readonly actions: readonly SlowAction[];
  readonly priorityParts: readonly string[];
}

/** What is asked of a device, and how points are given. */
export interface SlowQuestion {
  readonly targets: readonly string[];
  readonly rules: SlowRules;
  readonly fastenerPoints: (action: SlowAction) => number;
  readonly toolPoints: (tool: string) => number;
}

/** What a route counts, scores and takes. */
export interface SlowFigures {
  readonly steps: number;
  readonly fastener: number;
  readonly tool: number;
  readonly milliseconds: number;
}

const can = (action: SlowAction, facts: ReadonlySet<string>): boolean =>
  action.needs.every((fact) => facts.has(fact)) &&
  action.anyOf.every((clause) => clause.some((alternative) => alternative.every((fact) => facts.has(fact))));

const slowTime = (problem: SlowProblem, atoms: readonly SlowAtom[]): number => {
  const cost = new Map(problem.tools.map((tool) => [tool.id, tool.pickupMilliseconds]));
  let time = 0;
  let inHand: readonly string[] = [];
  for (const atom of atoms) {
    time += atom.milliseconds ?? 0;
    if (atom.tools.length > 0) {
      for (const tool of atom.tools.filter((one) => !inHand.includes(one))) time += cost.get(tool) ?? 0;
      inHand = atom.tools;
    }
  }
  return time;
};

const UNCOUNTED = ['turn-over', 'cool', 'pair', 'calibrate', 'test', 'power-on', 'function-test'];

/** Steps, points and time of one finished sequence. */
export const slowFigures = (
  problem: SlowProblem,
  route: readonly SlowAction[],
  question: SlowQuestion,
): SlowFigures => {
  const aids = new Set(problem.tools.filter((tool) => tool.holdingAid).map((tool) => tool.id));
  const own = question.targets.map((target) => target.split('/')[1]);
  const others = problem.priorityParts.filter((part) => !own.includes(part));
  const facts = new Set<string>();
  let stretch: SlowAction[] = [];
  for (const [index, action] of route.entries()) {
    const fresh = action.gives.filter((fact) => !facts.has(fact));
    for (const fact of fresh) facts.add(fact);
    stretch.push(action);
    const takesOther = fresh.some((fact) => others.some((part) => fact === `off/${part}` || fact === `free/${part}`));
    if (takesOther && index < route.length - 1) stretch = [];
  }
  const counted = stretch
    .flatMap((action) => action.atoms)
    .filter((atom) => !UNCOUNTED.includes(atom.do))
    .filter((atom) => !(atom.do === 'clean' && atom.afterRelease && !question.rules.cleaningAfterRelease));
  const tools = counted
    .flatMap((atom) => atom.tools)
    .filter((tool) => question.rules.holdingAidsAreTools || !aids.has(tool));
  const atoms = route.flatMap((action) => action.atoms);
  return {
    steps: slowCount(atoms, question.rules, aids),
    fastener: Math.min(5, ...stretch.map(question.fastenerPoints)),
    tool: Math.min(5, ...tools.map(question.toolPoints)),
    milliseconds: slowTime(problem, atoms),
  };
};

const isBetter = (one: SlowFigures, other: SlowFigures | undefined): boolean => {
  if (!other) return true;
  const order = [
    one.steps - other.steps,
    other.fastener + other.tool - one.fastener - one.tool,
    one.milliseconds - other.milliseconds,
    other.fastener - one.fastener,
  ];
  return (order.find((difference) => difference !== 0) ?? 0) < 0;
};

/** What trying everything found: the best of all minimal routes, the fewest steps of all routes whatever, how many there are. */
export interface SlowAnswer {
  readonly best: SlowFigures | undefined;
  readonly fewestOfAll: number;
  readonly sequences: number;
}

/** The best figures of each set of actions that reaches the targets in the fewest steps seen so far. */
class FewestSets {
  steps = Number.POSITIVE_INFINITY;
  private readonly best = new Map<string, { readonly ids: readonly string[]; figures: SlowFigures }>();

  add(route: readonly SlowAction[], figures: SlowFigures): void {
    if (figures.steps > this.steps) return;
    if (figures.steps < this.steps) this.best.clear();
    this.steps = figures.steps;
    const ids = route.map((action) => action.id).sort();
    const old = this.best.get(ids.join());
    if (!old) this.best.set(ids.join(), { ids, figures });
    else if (isBetter(figures, old.figures)) old.figures = figures;
  }

  /** The best over the sets that hold no smaller one. */
  minimal(): SlowFigures | undefined {
    const sets = [...this.best.values()];
    const holds = (larger: readonly string[], smaller: readonly string[]): boolean =>
      smaller.length < larger.length && smaller.every((name) => larger.includes(name));
    let best: SlowFigures | undefined;
    for (const { ids, figures } of sets)
      if (!sets.some((other) => holds(ids, other.ids)) && isBetter(figures, best)) best = figures;
    return best;
  }
}

/**
 * Tries every sequence of distinct actions that reaches the targets (and stops there), with needless actions too; the best is
 * over those of the fewest steps with no smaller set of actions that has as few. Undefined where there are more than `most`
 * sequences.
 */
export const slowBest = (problem: SlowProblem, question: SlowQuestion, most: number): SlowAnswer | undefined => {
  const usable = problem.actions.filter((action) => action.shown !== undefined && action.leaves !== 'destroyed');
  const fewest = new FewestSets();
  let sequences = 0;
  const route: SlowAction[] = [];
  const visit = (facts: ReadonlySet<string>): void => {
    if (sequences > most) return;
    if (question.targets.every((target) => facts.has(target))) {
      sequences++;
      fewest.add(route, slowFigures(problem, route, question));
      return;
    }
    for (const action of usable) {
      if (route.includes(action) || !can(action, facts)) continue;
      route.push(action);
      visit(new Set([...facts, ...action.gives]));
      route.pop();
    }
  };
  visit(new Set());
  return sequences > most ? undefined : { best: fewest.minimal(), fewestOfAll: fewest.steps, sequences };
};
