import type { RefereeAction, RefereeProblem } from './neutral-referee.ts';

/** A sequencing instance from the literature: operations 1..n, each with a tool and a direction of removal. */
export interface SequencingInstance {
  /** Pairs (a, b): a before b. */
  readonly precedence: readonly (readonly [number, number])[];
  /** Tool of operation 1, 2, … */
  readonly tools: readonly number[];
  /** Direction of operation 1, 2, …: 1, 2, 3 for the axes, the sign for the sense. */
  readonly directions: readonly number[];
}

/** Which changes are counted? A change of tool costs 1; of direction 0, 1 (perpendicular) or 2 (opposite). */
export interface CountedChanges {
  readonly tool: boolean;
  readonly direction: boolean;
}

const directionCost = (from: number, to: number): number => (from === to ? 0 : from === -to ? 2 : 1);

/** Reads precedence pairs as the sources print them: `(3,2)(3,1)…`. */
export const readPairs = (text: string): [number, number][] =>
  [...text.matchAll(/\((\d+),(\d+)\)/g)].map(([, a, b]) => [Number(a), Number(b)]);

/**
 * The instance in the neutral format: each pair (tool, direction) that occurs is one tool, whose changeover table holds
 * what is counted, one second a unit; the work itself takes no time and the first configuration is free. Targets:
 * the operations named, or all.
 */
export const configurationProblem = (
  instance: SequencingInstance,
  counted: CountedChanges,
  targets?: readonly number[],
): RefereeProblem => {
  const { precedence, tools, directions } = instance;
  const configuration = (at: number): string =>
    `${counted.tool ? tools[at] : 'any'}/${counted.direction ? directions[at] : 'any'}`;
  const actions = tools.map((_, at): RefereeAction => {
    const needs = precedence.filter(([, after]) => after === at + 1).map(([before]) => `done ${before}`);
    return { id: String(at + 1), tool: configuration(at), seconds: 0, needs, gives: [`done ${at + 1}`] };
  });
  const ids = [...new Set(tools.map((_, at) => configuration(at)))];
  const cost = (from: string, to: string): number => {
    const [toolFrom, directionFrom] = from.split('/');
    const [toolTo, directionTo] = to.split('/');
    const turn = counted.direction ? directionCost(Number(directionFrom), Number(directionTo)) : 0;
    return turn + (toolFrom === toolTo ? 0 : 1);
  };
  const changeover = ids.flatMap((from) =>
    ids.filter((to) => to !== from).map((to): [string, string, number] => [from, to, cost(from, to)]),
  );
  const target = (targets ?? tools.map((_, at) => at + 1)).map((operation) => `done ${operation}`);
  return { tools: ids.map((id) => ({ id, pickupSeconds: 1 })), actions, target, firstPickupFree: true, changeover };
};
