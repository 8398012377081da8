/**
 * Source: Teunter, Determining optimal disassembly and recovery strategies, Omega 34 (2006), Tables 1 to 5. The stored
 * transcription prints 0 for "low stays low" under process 1; Table 5 uses 1, and so does this test. Profits are printed
 * to one decimal and come out of sums of the printed data, so that only rounding of sums is allowed for.
 */
import { describe, expect, test } from 'vitest';
import { isClose } from '#quantity/close';
import { type AndOrProblem, type Choice, evaluateAndOr } from '#routes/expected/and-or';

type Quality = 'high' | 'low';
interface Item {
  readonly assembly: number;
  readonly quality: Quality;
}

/** Profits of the recovery options of what is left; the last option of assemblies 4 and 5 only at high quality. */
const profits: Readonly<Record<string, readonly number[]>> = {
  '1': [-4],
  '1 after 2': [-3],
  '1 after 3': [-3],
  '1 after 2,3': [-2],
  '2': [-1, 2],
  '3': [0, 5],
  '3 after 4': [2, 4],
  '3 after 5': [-3, 3],
  '3 after 4,5': [-2, 1],
  '4': [-1, 1, 5],
  '5': [2, 1, 10],
};

/** Cost of taking a set off by process 1 (destructive) and 2. */
const costs: Readonly<Record<string, readonly [number, number]>> = {
  '1 after 2': [1, 2],
  '1 after 3': [2, 4],
  '1 after 2,3': [3, 5],
  '3 after 4': [1, 3],
  '3 after 5': [1, 4],
  '3 after 4,5': [2, 6],
};

/** Chance that a part taken off by process 2 is of high quality, from a high and a low parent. */
const highFrom: Readonly<Record<number, Readonly<Record<Quality, number>>>> = {
  2: { high: 0.7, low: 0.5 },
  3: { high: 0.9, low: 0.6 },
  4: { high: 0.9, low: 0.5 },
  5: { high: 0.8, low: 0.4 },
};

const recovery = (key: string, quality: Quality): number => {
  const options = profits[key] ?? [];
  return Math.max(...(options.length === 3 && quality === 'low' ? options.slice(0, 2) : options));
};

const child = (assembly: number, chanceOfHigh: number): Choice<Item>['children'][number] => [
  { probability: chanceOfHigh, state: { assembly, quality: 'high' } },
  { probability: 1 - chanceOfHigh, state: { assembly, quality: 'low' } },
];

const choicesOf = ({ assembly, quality }: Item): readonly Choice<Item>[] => {
  const keep = { name: 'keep', adds: recovery(`${assembly}`, quality), children: [] };
  const apart = Object.entries(costs).flatMap(([key, byProcess]) => {
    const [parent, parts = ''] = key.split(' after ');
    if (parent !== `${assembly}`) return [];
    return byProcess.map((cost, process) => ({
      name: `${parts} by process ${process + 1}`,
      adds: recovery(key, quality) - cost,
      children: parts
        .split(',')
        .map(Number)
        .map((part) => child(part, process === 0 ? 0 : (highFrom[part]?.[quality] ?? 0))),
    }));
  });
  return [keep, ...apart];
};

const problem: AndOrProblem<Item> = {
  aim: 'most',
  key: ({ assembly, quality }) => `${assembly} ${quality}`,
  choices: choicesOf,
};

describe('alternative disassembly processes with uncertain quality, Table 5', () => {
  test.each([
    [4, 'high', 5, 'keep'],
    [4, 'low', 1, 'keep'],
    [5, 'high', 10, 'keep'],
    [5, 'low', 2, 'keep'],
    [2, 'high', 2, 'keep'],
    [2, 'low', 2, 'keep'],
    [3, 'high', 8, '4,5 by process 2'],
    [3, 'low', 5, 'keep'],
    [1, 'high', 2.7, '2,3 by process 2'],
    [1, 'low', 2.0, '2,3 by process 1'],
  ] as const)('f(%i, %s) = %f, by %s', (...row) => {
    const [assembly, quality, value, choice] = row;
    const root = evaluateAndOr<Item>(problem, { assembly, quality });
    expect(root.value).toSatisfy((found: number) => isClose(found, value, { abs: 1e-12 }));
    expect(root.choice.name).toBe(choice);
  });
});
