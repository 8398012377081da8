import { UnfastenError } from '#quantity/unfasten-error';
import { toMilliseconds } from '../neutral/compile-neutral.ts';
import type { NeutralAction, NeutralProblem } from '../neutral/neutral-problem.ts';
import { changeoverMilliseconds, isTriangular } from './changeover-table.ts';

/** A route problem in the Planning Domain Definition Language, as two files. */
export interface PddlFiles {
  readonly domain: string;
  readonly problem: string;
}

/** Most ways from tool to tool that are written out; each becomes an action of its own. */
const maxTakes = 10_000;

interface Names {
  readonly fact: ReadonlyMap<string, string>;
  readonly tool: ReadonlyMap<string, string>;
}

/**
 * How does a general-purpose planner read a route problem? PDDL with `:strips` and `:action-costs`, no parameters, costs
 * in integer milliseconds. Taking a tool up is an action; where the changeover table breaks the triangle inequality a
 * `ready` fact makes sure that a tool is taken up only to act, so that the optimum is the neutral problem's own.
 * Throws an `UnfastenError` of kind `route-problem` for a table it cannot carry: a cost from a tool to itself, or more
 * than 10,000 pairs of tools.
 */
export function writePddl(problem: NeutralProblem): PddlFiles {
  refuseWhatCannotBeCarried(problem);
  const names = namesOf(problem);
  const guarded = !isTriangular(problem);
  const takes = takeActions(problem, names, guarded);
  const acts = problem.actions.map((action, index) => actAction({ action, index, names, guarded }));
  const guards = guarded ? ['ready', ...problem.actions.map((_, index) => todo(index))] : [];
  const predicates = [...names.fact.values(), 'held-nothing', ...names.tool.values(), ...guards];
  return {
    domain: [
      ...legend(problem, names),
      '(define (domain unfasten-route)',
      '  (:requirements :strips :action-costs)',
      `  (:predicates ${predicates.map((name) => `(${name})`).join(' ')})`,
      '  (:functions (total-cost) - number)',
      ...takes,
      ...acts,
      ')',
      '',
    ].join('\n'),
    problem: [
      '(define (problem unfasten-route-problem)',
      '  (:domain unfasten-route)',
      `  (:init ${['held-nothing', ...guards].map((name) => `(${name})`).join(' ')} (= (total-cost) 0))`,
      `  (:goal ${all(problem.target.map((fact) => names.fact.get(fact) ?? fact))})`,
      '  (:metric minimize (total-cost))',
      ')',
      '',
    ].join('\n'),
  };
}

function refuseWhatCannotBeCarried(problem: NeutralProblem): void {
  const toItself = (problem.changeover ?? []).findIndex(([from, to]) => from === to);
  const pairs = problem.tools.length * problem.tools.length;
  if (toItself < 0 && pairs <= maxTakes) return;
  const [where, what, value] =
    toItself >= 0
      ? [`changeover[${toItself}]`, 'PDDL carries no cost from a tool to itself', problem.changeover?.[toItself]]
      : ['tools', `PDDL is written for at most ${maxTakes} pairs of tools`, pairs];
  throw new UnfastenError('route-problem', what, { where, value, remedy: 'Leave it out, or solve without --pddl.' });
}

/** PDDL names know no case and few signs: things are numbered, and the legend says which is which. */
function namesOf(problem: NeutralProblem): Names {
  const facts = new Set([...problem.actions.flatMap(({ needs, gives }) => [...needs, ...gives]), ...problem.target]);
  return {
    fact: new Map([...facts].map((fact, index) => [fact, `f${index}`])),
    tool: new Map(problem.tools.map(({ id }, index) => [id, `held-t${index}`])),
  };
}

function legend(problem: NeutralProblem, names: Names): readonly string[] {
  const facts = [...names.fact].map(([fact, name]) => `; ${name} ${JSON.stringify(fact)}`);
  const tools = problem.tools.map(({ id }, index) => `; t${index} ${JSON.stringify(id)}`);
  const actions = problem.actions.map(({ id }, index) => `; act-a${index} ${JSON.stringify(id)}`);
  return ['; Costs are integer milliseconds.', ...facts, ...tools, ...actions];
}

function takeActions(problem: NeutralProblem, names: Names, guarded: boolean): readonly string[] {
  const held = ['held-nothing', ...names.tool.values()];
  return held.flatMap((from, fromIndex) =>
    problem.tools.flatMap((_, toIndex) => {
      if (fromIndex === toIndex + 1) return [];
      const to = held[toIndex + 1] ?? '';
      return pddlAction({
        name: `take-t${toIndex}-after-${fromIndex === 0 ? 'nothing' : `t${fromIndex - 1}`}`,
        needs: [from, ...(guarded ? ['ready'] : [])],
        gives: [to],
        ends: [from, ...(guarded ? ['ready'] : [])],
        cost: changeoverMilliseconds(problem, fromIndex, toIndex + 1),
      });
    }),
  );
}

interface ActOptions {
  readonly action: NeutralAction;
  readonly index: number;
  readonly names: Names;
  readonly guarded: boolean;
}

/** Stands while an action was not done yet. */
const todo = (index: number): string => `todo-a${index}`;

/**
 * Bare hands act before a tool is taken up, never between taking it up and using it: that order costs the same. Where a
 * detour between tools is cheaper, nothing is done twice either, merely to hold the tool between.
 */
function actAction({ action, index, names, guarded }: ActOptions): string {
  const factNames = (facts: readonly string[]) => [...new Set(facts.map((fact) => names.fact.get(fact) ?? fact))];
  const held = action.tool === null ? (guarded ? ['ready'] : []) : [names.tool.get(action.tool) ?? ''];
  return pddlAction({
    name: `act-a${index}`,
    needs: [...held, ...factNames(action.needs), ...(guarded ? [todo(index)] : [])],
    gives: [...factNames(action.gives), ...(guarded && action.tool !== null ? ['ready'] : [])],
    ends: guarded ? [todo(index)] : [],
    cost: toMilliseconds(action.seconds),
  });
}

interface PddlAction {
  readonly name: string;
  readonly needs: readonly string[];
  readonly gives: readonly string[];
  readonly ends: readonly string[];
  readonly cost: number;
}

function pddlAction({ name, needs, gives, ends, cost }: PddlAction): string {
  const effects = [...ends.map((fact) => `(not (${fact}))`), ...gives.map((fact) => `(${fact})`)].join(' ');
  return [
    `  (:action ${name}`,
    '    :parameters ()',
    `    :precondition ${all(needs)}`,
    `    :effect (and ${effects} (increase (total-cost) ${cost})))`,
  ].join('\n');
}

function all(facts: readonly string[]): string {
  return `(and${facts.map((fact) => ` (${fact})`).join('')})`;
}
