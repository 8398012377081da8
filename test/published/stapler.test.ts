// Source: stapler of 18 parts, public repository qwsazx852/anufacturing-algorithm-portfolio, commit 9153fb33, data module
// and original scripts (precedence, tools and directions agree in both). The source prints no proved optimum: the optima
// below were computed for this project by two independent exact methods (dynamic programming over all down-sets, and
// Dijkstra over configurations). Tool change 1; direction change 0, 1 perpendicular, 2 opposite; first operation free.
import { expect, test } from 'vitest';
import { configurationProblem } from '../referee/neutral/configuration-problem.ts';
import { judge } from '../referee/neutral/neutral-referee.ts';
import { stapler } from '../referee/neutral/sequencing-instances.ts';
import { provedSeconds } from '../referee/neutral/solved-and-judged.ts';

const both = { tool: true, direction: true };
const toolOnly = { tool: true, direction: false };

test('stapler, all 18 parts: 13 with tools and directions, 4 with tools only, 7 with directions only', () => {
  expect(provedSeconds(configurationProblem(stapler, both))).toBe(13);
  expect(provedSeconds(configurationProblem(stapler, toolOnly))).toBe(4);
  expect(provedSeconds(configurationProblem(stapler, { tool: false, direction: true }))).toBe(7);
});

test('stapler, the sequence printed with the optimum: 6 tool changes and direction changes of 7', () => {
  const sequence = '3 14 16 17 18 1 4 8 11 10 5 15 2 13 12 6 7 9'.split(' ');
  expect(judge(configurationProblem(stapler, both), sequence)).toBe(13_000);
  expect(judge(configurationProblem(stapler, toolOnly), sequence)).toBe(6_000);
  expect(judge(configurationProblem(stapler, { tool: false, direction: true }), sequence)).toBe(7_000);
});

test.each([
  [9, 10, 3],
  [12, 8, 3],
  [2, 1, 1],
])('stapler, part %i only: %i with tools and directions, %i with tools only', (part, withDirections, tools) => {
  expect(provedSeconds(configurationProblem(stapler, both, [part]))).toBe(withDirections);
  expect(provedSeconds(configurationProblem(stapler, toolOnly, [part]))).toBe(tools);
});
