import type { Fact, RouteAction } from '#routes/problem/route-problem';
import type { ActionWork } from './action-work.ts';

/** An action with what the order may look at: its work and its chances under the odds in use. */
export interface OrderedAction {
  readonly action: RouteAction;
  readonly work: ActionWork;
  readonly success: number;
  readonly damage: number;
  /** Pickups of the tools of its first and last sets [ms], sorted. */
  readonly pickups: readonly number[];
}

const ROUNDS = 4;

/**
 * In which order are actions looked at, so that nothing depends on how anything is called or listed? By figures first, then
 * by what an action needs and gives, seen ever farther through the problem (colour refinement); the id decides only
 * between actions that still look alike. Cost: four passes over all needs and gives.
 */
export const inStructuralOrder = (actions: readonly OrderedAction[], target: Fact): readonly OrderedAction[] => {
  let colours: readonly number[] = ranks(actions.map(figures));
  const facts = [
    ...new Set(actions.flatMap(({ action }) => [...action.needs, ...action.gives, ...action.anyOf.flat(2)])),
  ];
  for (let round = 0; round < ROUNDS; round++) {
    const factColour = new Map<Fact, number>();
    const descriptions = facts.map((fact) => factDescription(fact, { actions, colours, target }));
    const factRanks = ranks(descriptions);
    for (const [index, fact] of facts.entries()) factColour.set(fact, factRanks[index] ?? 0);
    colours = ranks(actions.map(({ action }, index) => actionDescription(action, colours[index] ?? 0, factColour)));
  }
  const indexed = actions.map((entry, index) => ({ entry, colour: colours[index] ?? 0 }));
  indexed.sort((a, b) => a.colour - b.colour || (a.entry.action.id < b.entry.action.id ? -1 : 1));
  return indexed.map(({ entry }) => entry);
};

const figures = ({ action, work, success, damage, pickups }: OrderedAction): string =>
  JSON.stringify([work.milliseconds, success, damage, pickups, action.needs.length, action.gives.length, action.kind]);

/** Which place does each text have among the distinct texts in order? */
const ranks = (texts: readonly string[]): readonly number[] => {
  const distinct = [...new Set(texts)].sort();
  const rank = new Map(distinct.map((text, index) => [text, index]));
  return texts.map((text) => rank.get(text) ?? 0);
};

const factDescription = (
  fact: Fact,
  { actions, colours, target }: { actions: readonly OrderedAction[]; colours: readonly number[]; target: Fact },
): string => {
  const seen: string[] = [fact === target ? 'target' : ''];
  for (const [index, { action }] of actions.entries()) {
    const colour = colours[index] ?? 0;
    if (action.gives.includes(fact)) seen.push(`g${colour}`);
    if (action.needs.includes(fact)) seen.push(`n${colour}`);
    if (action.anyOf.some((clause) => clause.some((alternative) => alternative.includes(fact))))
      seen.push(`o${colour}`);
  }
  return seen.sort().join();
};

const actionDescription = (action: RouteAction, colour: number, factColour: ReadonlyMap<Fact, number>): string => {
  const colourOf = (fact: Fact): number => factColour.get(fact) ?? 0;
  const sorted = (facts: readonly Fact[]): readonly number[] => facts.map(colourOf).sort((a, b) => a - b);
  const clauses = action.anyOf.map((clause) =>
    JSON.stringify(clause.map((facts) => JSON.stringify(sorted(facts))).sort()),
  );
  return JSON.stringify([String(colour).padStart(6, '0'), sorted(action.needs), sorted(action.gives), clauses.sort()]);
};
