import { expect, test } from 'vitest';
import { bestFound } from '#routes/search/best-found';
import { share } from '../../share.ts';
import { asFacts, asOptions, asRouteProblem, drawPoints } from './ask.ts';
import { Draw } from './random.ts';
import type { SlowAction, SlowProblem } from './slow-best.ts';
import { drawProblem, drawRules } from './small-problems.ts';

interface Renaming {
  readonly problem: SlowProblem;
  readonly fact: (fact: string) => string;
  readonly oldTool: (tool: string) => string;
  readonly oldAction: (id: string) => string;
}

/** Every id anew and every list in another order. */
const renamed = (draw: Draw, problem: SlowProblem): Renaming => {
  const names = new Map<string, string>();
  const fresh = (old: string): string => {
    const known = names.get(old);
    if (known) return known;
    let name: string;
    do name = `n${draw.below(1_000_000)}`;
    while ([...names.values()].includes(name));
    names.set(old, name);
    return name;
  };
  const fact = (old: string): string => {
    const [kind, subject] = old.split('/');
    return `${kind}/${fresh(subject ?? '')}`;
  };
  const facts = (list: readonly string[]): string[] => draw.shuffled(list.map(fact));
  const ids = new Map<string, string>();
  const action = (old: SlowAction): SlowAction => {
    const id = fresh(old.id);
    ids.set(id, old.id);
    return {
      ...old,
      id,
      needs: facts(old.needs),
      gives: facts(old.gives),
      anyOf: draw.shuffled(old.anyOf.map((clause) => draw.shuffled(clause.map(facts)))),
      atoms: old.atoms.map((atom) => ({
        ...atom,
        tools: atom.tools.map((tool) => fresh(`tool ${tool}`)).sort(),
        ...(atom.place === undefined ? {} : { place: fresh(`place ${atom.place}`) }),
      })),
    };
  };
  const tools = problem.tools.map((tool) => ({ ...tool, id: fresh(`tool ${tool.id}`) }));
  const oldTools = new Map(problem.tools.map((tool) => [fresh(`tool ${tool.id}`), tool.id]));
  return {
    problem: {
      ...problem,
      tools: draw.shuffled(tools),
      actions: draw.shuffled(problem.actions.map(action)),
      priorityParts: draw.shuffled(problem.priorityParts.map(fresh)),
    },
    fact,
    oldTool: (tool) => oldTools.get(tool) ?? tool,
    oldAction: (id) => ids.get(id) ?? id,
  };
};

test('the figures depend neither on names nor on the order of input', () => {
  const cases = share(250, 4000);
  let sameRoute = 0;
  let found = 0;
  for (let seed = 1; seed <= cases; seed++) {
    const draw = new Draw(seed + 500_000);
    const { problem, targets } = drawProblem(draw, 8 + draw.below(9));
    const rules = drawRules(draw, draw.one([0, 0, 0.3]));
    const points = drawPoints(draw, problem);
    const one = bestFound(asRouteProblem(problem), asFacts(targets), asOptions(rules, points));
    const other = renamed(draw, problem);
    const two = bestFound(
      asRouteProblem(other.problem),
      asFacts(draw.shuffled(targets.map(other.fact))),
      asOptions(rules, { fastener: points.fastener, tool: (tool) => points.tool(other.oldTool(tool)) }),
    );
    expect(two.kind, `seed ${seed}`).toBe(one.kind);
    if (one.kind !== 'found' || two.kind !== 'found') continue;
    const figures = ({ steps, points: got, milliseconds, proved, bound }: typeof one): unknown => [
      steps,
      got,
      milliseconds,
      proved,
      bound,
    ];
    expect(figures(two), `seed ${seed}`).toEqual(figures(one));
    found++;
    if (two.route.map(other.oldAction).join() === one.route.join()) sameRoute++;
  }
  // Where the structure tells all actions apart the very sequence is the same; look-alikes may stand for one another.
  expect(sameRoute).toBeGreaterThan(found * 0.95);
}, 240_000);
