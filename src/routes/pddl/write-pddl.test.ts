import fc from 'fast-check';
import { expect, test } from 'vitest';
import { planPddl } from '../../../test/referee/pddl/pddl-planner.ts';
import { share } from '../../../test/share.ts';
import type { NeutralAction, NeutralProblem } from '../neutral/neutral-problem.ts';
import { isTriangular } from './changeover-table.ts';
import { writePddl } from './write-pddl.ts';

interface Begun {
  readonly facts: ReadonlySet<string>;
  readonly held: string | undefined;
  readonly left: readonly NeutralAction[];
  readonly cost: number;
}

/** Least cost by trying every sequence that uses no action twice [integer ms]; the neutral format's text read literally. */
function cheapestByTrying(problem: NeutralProblem): number | undefined {
  let best: number | undefined;
  const pickUp = (held: string | undefined, tool: string) => {
    const row = problem.changeover?.find(([from, to]) => from === held && to === tool);
    if (held === tool) return 0;
    if (row !== undefined) return row[2];
    const seconds = problem.tools.find(({ id }) => id === tool)?.pickupSeconds ?? 0;
    return held === undefined && problem.firstPickupFree === true ? 0 : seconds;
  };
  const extend = ({ facts, held, left, cost }: Begun) => {
    if (best !== undefined && cost >= best) return;
    if (problem.target.every((fact) => facts.has(fact))) best = cost;
    for (const action of left.filter(({ needs }) => needs.every((fact) => facts.has(fact)))) {
      extend({
        facts: new Set([...facts, ...action.gives]),
        held: action.tool ?? held,
        left: left.filter((other) => other !== action),
        cost: cost + action.seconds + (action.tool === null ? 0 : pickUp(held, action.tool)),
      });
    }
  };
  extend({ facts: new Set(), held: undefined, left: problem.actions, cost: 0 });
  return best === undefined ? undefined : best * 1000;
}

const fact = fc.constantFrom('a', 'b', 'c', 'd');
const tool = fc.constantFrom('t', 'u', 'v');
const action = fc.record({
  tool: fc.option(tool, { nil: null }),
  seconds: fc.integer({ min: 0, max: 9 }),
  needs: fc.uniqueArray(fact, { maxLength: 2 }),
  gives: fc.uniqueArray(fact, { minLength: 1, maxLength: 2 }),
});
const row = fc.tuple(tool, tool, fc.integer({ min: 0, max: 30 })).filter(([from, to]) => from !== to);
const problem: fc.Arbitrary<NeutralProblem> = fc.record({
  format: fc.constant('unfasten/route-problem' as const),
  version: fc.constant(1 as const),
  tools: fc.tuple(fc.nat(9), fc.nat(9), fc.nat(9)).map(([t, u, v]) => [
    { id: 't', pickupSeconds: t },
    { id: 'u', pickupSeconds: u },
    { id: 'v', pickupSeconds: v },
  ]),
  actions: fc
    .array(action, { minLength: 1, maxLength: 6 })
    .map((list) => list.map((one, index) => ({ id: `x${index}`, ...one }))),
  target: fc.uniqueArray(fact, { minLength: 1, maxLength: 2 }),
  firstPickupFree: fc.boolean(),
  changeover: fc.uniqueArray(row, { maxLength: 6, selector: ([from, to]) => `${from} ${to}` }),
});

test('a planner that reads the PDDL alone finds the cost that trying every sequence finds', () => {
  const seen = { guarded: 0, unsolvable: 0 };
  const check = fc.property(problem, (generated) => {
    const { domain, problem: text } = writePddl(generated);
    const expected = cheapestByTrying(generated);
    seen.guarded += isTriangular(generated) ? 0 : 1;
    seen.unsolvable += expected === undefined ? 1 : 0;
    expect(planPddl(domain, text).cost).toBe(expected);
  });
  fc.assert(check, { numRuns: share(300, 3_000), seed: 20_261_125 });
  expect(seen.guarded).toBeGreaterThan(20);
  expect(seen.unsolvable).toBeGreaterThan(20);
});

const detour: NeutralProblem = {
  format: 'unfasten/route-problem',
  version: 1,
  tools: [
    { id: 'Driver T5', pickupSeconds: 1 },
    { id: 'spudger', pickupSeconds: 1.5 },
    { id: 'hook', pickupSeconds: 1 },
  ],
  actions: [
    { id: 'unscrew', tool: 'Driver T5', seconds: 4.25, needs: [], gives: ['Cover; free'] },
    { id: 'pry', tool: 'spudger', seconds: 2, needs: ['Cover; free'], gives: ['off'] },
  ],
  target: ['off'],
  changeover: [
    ['Driver T5', 'spudger', 40],
    ['Driver T5', 'hook', 1],
    ['hook', 'spudger', 1],
  ],
};

test('a tool is not taken up by way of another that does nothing', () => {
  const { domain, problem: text } = writePddl(detour);
  expect(planPddl(domain, text)).toEqual({
    cost: 1_000 + 4_250 + 40_000 + 2_000,
    names: ['take-t0-after-nothing', 'act-a0', 'take-t1-after-t0', 'act-a1'],
  });
});

test('nothing is done twice to hold a tool on the way to another', () => {
  const again: NeutralProblem = {
    format: 'unfasten/route-problem',
    version: 1,
    tools: ['t', 'u', 'v'].map((id) => ({ id, pickupSeconds: 0 })),
    actions: [
      { id: 'first', tool: 'u', seconds: 0, needs: [], gives: ['a'] },
      { id: 'second', tool: 't', seconds: 0, needs: ['a'], gives: ['d'] },
      { id: 'third', tool: 'v', seconds: 0, needs: ['d'], gives: ['b'] },
    ],
    target: ['b'],
    changeover: [['t', 'v', 1]],
  };
  const { domain, problem: text } = writePddl(again);
  expect(planPddl(domain, text).cost).toBe(1000);
});

test('a table without detours needs no guard, and the legend carries every name', () => {
  const { changeover: _, ...plain } = detour;
  const { domain } = writePddl(plain);
  expect(domain).not.toContain('(ready)');
  expect(domain).toContain('; f0 "Cover; free"');
  expect(domain).toContain('; t0 "Driver T5"');
});

test('a cost from a tool to itself is refused with its place', () => {
  const changeover = [...(detour.changeover ?? []), ['hook', 'hook', 3] as const];
  expect(() => writePddl({ ...detour, changeover })).toThrowError(
    expect.objectContaining({ kind: 'route-problem', details: expect.objectContaining({ where: 'changeover[3]' }) }),
  );
});
