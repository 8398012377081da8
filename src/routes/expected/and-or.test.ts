import { describe, expect, test } from 'vitest';
import { type AndOrProblem, type Choice, evaluateAndOr, evaluateWithin } from './and-or.ts';

const problemOf = (
  choices: Readonly<Record<string, readonly Choice<string>[]>>,
  aim: 'least' | 'most' = 'least',
): AndOrProblem<string> => ({ aim, key: (state) => state, choices: (state) => choices[state] ?? [] });

const end = (adds: number, second = 0): Choice<string> => ({ name: 'end', adds, second, children: [] });
const to = (state: string, adds: number): Choice<string> => ({
  name: `to ${state}`,
  adds,
  children: [[{ probability: 1, state }]],
});

describe('evaluateAndOr', () => {
  test('takes the best choice, adds all its children and weighs their outcomes', () => {
    const apart: Choice<string> = {
      name: 'apart',
      adds: 3,
      children: [
        [
          { probability: 0.25, state: 'a' },
          { probability: 0.75, state: 'b' },
        ],
        [{ probability: 1, state: 'b' }],
      ],
    };
    const problem = problemOf({ root: [apart, to('dear', 1)], a: [end(8)], b: [end(4)], dear: [end(100)] });
    expect(evaluateAndOr<string>(problem, 'root')).toMatchObject({ value: 3 + 2 + 3 + 4, choice: apart });
    const most = evaluateAndOr<string>({ ...problem, aim: 'most' }, 'root');
    expect(most.value).toBe(101);
  });

  test('an outcome left out ends there at no more cost', () => {
    const problem = problemOf({
      root: [{ name: 'half', adds: 1, children: [[{ probability: 0.5, state: 'a' }]] }],
      a: [end(10)],
    });
    expect(evaluateAndOr<string>(problem, 'root').value).toBe(6);
  });

  test('the second figure decides between equal first figures, the earlier choice between equal pairs', () => {
    const problem = problemOf({
      root: [
        { ...end(0.3, 2), name: 'a' },
        { ...end(0.1 + 0.2, 1), name: 'b' },
        { ...end(0.3, 1), name: 'c' },
      ],
    });
    expect(evaluateAndOr<string>(problem, 'root').choice.name).toBe('b');
  });

  test('a state that leads back to itself is named', () => {
    const problem = problemOf({ root: [to('a', 1)], a: [to('root', 1)] });
    expect(() => evaluateAndOr<string>(problem, 'root')).toThrow(/"root" leads back to itself/);
  });

  test('a state without a choice is named', () => {
    expect(() => evaluateAndOr<string>(problemOf({ root: [to('a', 1)] }), 'root')).toThrow(/"a" offers no choice/);
  });

  test('works out a state once, however many ways lead to it', () => {
    const asked: string[] = [];
    const choices: Record<string, readonly Choice<string>[]> = { s0: [end(1)] };
    for (let index = 1; index <= 40; index++)
      choices[`s${index}`] = [to(`s${index - 1}`, 1), to(`s${Math.max(0, index - 2)}`, 5)];
    const problem = problemOf(choices);
    const askedChoices = (state: string): readonly Choice<string>[] => {
      asked.push(state);
      return problem.choices(state);
    };
    const counted = { ...problem, choices: askedChoices };
    expect(evaluateAndOr<string>(counted, 's40').value).toBe(41);
    expect(asked.length).toBe(41);
  });
});

test('evaluateWithin gives up at the first refusal and keeps what was solved', () => {
  const solved = new Map();
  const problem = problemOf({ root: [to('a', 1), to('b', 1)], a: [end(1)], b: [end(2)] });
  let left = 2;
  expect(evaluateWithin<string, Choice<string>>(problem, 'root', { solved, enter: () => left-- > 0 })).toBeUndefined();
  expect([...solved.keys()]).toEqual(['a']);
  left = 2;
  expect(evaluateWithin<string, Choice<string>>(problem, 'root', { solved, enter: () => left-- > 0 })?.value).toBe(2);
});
