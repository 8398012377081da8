// Source: ceiling fan of 26 parts, public repository qwsazx852/anufacturing-algorithm-portfolio, commit 9153fb33, data
// module and original scripts; named as an instance in the abstract of Tseng et al., J. Manuf. Syst. 57 (2020) 416-428
// (the link between the two is an inference). The source prints no proved optimum: the optima below were computed for
// this project, the joint one by two exact methods. Tool change 1; direction change 0, 1 or 2; first operation free.
import { expect, test } from 'vitest';
import { configurationProblem } from '../referee/neutral/configuration-problem.ts';
import { judge } from '../referee/neutral/neutral-referee.ts';
import { ceilingFan as fan } from '../referee/neutral/sequencing-instances.ts';
import { provedSeconds } from '../referee/neutral/solved-and-judged.ts';

const both = { tool: true, direction: true };
const toolOnly = { tool: true, direction: false };
const directionOnly = { tool: false, direction: true };

test('ceiling fan, all 26 parts: 9 with tools and directions, 4 with tools only, 4 with directions only', () => {
  expect(provedSeconds(configurationProblem(fan, both))).toBe(9);
  expect(provedSeconds(configurationProblem(fan, toolOnly))).toBe(4);
  expect(provedSeconds(configurationProblem(fan, directionOnly))).toBe(4);
});

test('ceiling fan, the sequence printed with the optimum: 5 tool changes and direction changes of 4', () => {
  const sequence = '15 16 19 20 21 22 23 24 5 6 4 11 12 7 8 9 10 2 1 3 26 25 18 17 14 13'.split(' ');
  expect(judge(configurationProblem(fan, both), sequence)).toBe(9_000);
  expect(judge(configurationProblem(fan, toolOnly), sequence)).toBe(5_000);
  expect(judge(configurationProblem(fan, directionOnly), sequence)).toBe(4_000);
});

test.each([
  [13, 9, 3],
  [9, 2, 0],
  [25, 1, 1],
])('ceiling fan, part %i only: %i with tools and directions, %i with tools only', (part, withDirections, tools) => {
  expect(provedSeconds(configurationProblem(fan, both, [part]))).toBe(withDirections);
  expect(provedSeconds(configurationProblem(fan, toolOnly, [part]))).toBe(tools);
});
