// Source: the precedence-constrained class sequencing problem of Burgy, Baptiste and Hertz, GERAD report G-2017-82,
// Computers & Operations Research 124 (2020) 105063, doi 10.1016/j.cor.2020.105063, restricted to disjoint chains
// (shortest common supersequences without repeated letters). The chains and their optima are small enough to be counted
// by hand and were computed for this project by complete enumeration.
import { expect, test } from 'vitest';
import { exhaustiveOptimum, type RefereeAction, type RefereeProblem } from '../referee/neutral/neutral-referee.ts';
import { provedSeconds } from '../referee/neutral/solved-and-judged.ts';

/** One action a letter, in the order of its chain; every run of one letter costs 1 s, the first included. */
const chainProblem = (chains: readonly string[]): RefereeProblem => {
  const actions = chains.flatMap((chain, c) =>
    [...chain].map((letter, at): RefereeAction => {
      const needs = at === 0 ? [] : [`${c}.${at - 1}`];
      return { id: `${c}.${at}`, tool: letter, seconds: 0, needs, gives: [`${c}.${at}`] };
    }),
  );
  const tools = [...new Set(chains.join(''))].map((id) => ({ id, pickupSeconds: 1 }));
  return { tools, actions, target: chains.map((chain, c) => `${c}.${chain.length - 1}`) };
};

test.each([
  ['ABC BCA CAB', 5],
  ['BA CA', 3],
  ['ABAB BABA', 5],
  ['ABCA BACB CABC', 7],
  ['ABC ACB BAC BCA CAB CBA', 7],
])('chains %s need %i runs', (chains, runs) => {
  const problem = chainProblem(chains.split(' '));
  expect(exhaustiveOptimum(problem)).toBe(1000 * runs);
  expect(provedSeconds(problem)).toBe(runs);
});

test('chains BA, CA: taking the tool with most operations at hand gives 4 runs, one more than the optimum', () => {
  expect(provedSeconds(chainProblem(['BA', 'CA']))).toBe(3);
  expect(provedSeconds(chainProblem(['BA']))).toBe(2);
});
