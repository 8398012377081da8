import { describe, expect, it } from 'vitest';
import type { RouteAction, RouteProblem } from '../problem/route-problem.ts';
import { isUsable, leastTime } from './least-time.ts';

const release = (id: string, rest: Partial<RouteAction> & { tools: readonly string[]; ms?: number }): RouteAction => {
  const { tools, ms, ...more } = rest;
  return {
    id,
    kind: 'release',
    subject: id,
    atoms: [{ do: 'unscrew', tools, ...(ms === undefined ? {} : { milliseconds: ms }) }],
    needs: [],
    anyOf: [],
    gives: [`released/${id}`],
    shown: 'bench',
    ...more,
  };
};
const problem = (actions: readonly RouteAction[]): RouteProblem => ({
  reach: 'pessimistic',
  tools: [
    { id: 'a', pickupMilliseconds: 100, holdingAid: false },
    { id: 'b', pickupMilliseconds: 30, holdingAid: false },
  ],
  actions,
  priorityParts: [],
  unreachable: {},
});

describe('leastTime', () => {
  it('orders work so that a tool is taken up once', () => {
    // x and z with a, y with b, any order: 100 + 10 + 10 + 30 + 10 = 160.
    const found = leastTime(
      problem([
        release('x', { tools: ['a'], ms: 10 }),
        release('y', { tools: ['b'], ms: 10 }),
        release('z', { tools: ['a'], ms: 10 }),
      ]),
      ['released/x', 'released/y', 'released/z'],
    );
    expect(found).toMatchObject({ kind: 'found', milliseconds: 160, bound: 160, proved: true });
  });

  it('takes one alternative of a clause, whole: a set of one against a set of two', () => {
    // By p: 20 + 1; by q and r: 5 + 5 + 1 = 11.
    const bare = (id: string, ms: number) => release(id, { tools: [], ms });
    const goal = { ...bare('t', 1), anyOf: [[['released/p'], ['released/q', 'released/r']] as const] };
    const found = leastTime(problem([bare('p', 20), bare('q', 5), bare('r', 5), goal]), ['released/t']);
    expect(found.milliseconds).toBe(11);
    expect([...found.actions].sort()).toEqual(['q', 'r', 't']);
  });

  it('keeps in hand what two tool sets share', () => {
    // a 100, then a and b: only b is new, 30.
    const found = leastTime(
      problem([
        release('x', { tools: ['a'], ms: 0 }),
        release('y', { tools: ['a', 'b'], ms: 0, needs: ['released/x'] }),
      ]),
      ['released/y'],
    );
    expect(found.milliseconds).toBe(130);
  });

  it('says which actions have no time, and where nothing reaches the target', () => {
    expect(leastTime(problem([release('x', { tools: [] })]), ['released/x'])).toMatchObject({
      milliseconds: 0,
      withoutTime: ['x'],
    });
    expect(leastTime(problem([]), ['released/x'])).toMatchObject({ kind: 'unreachable', proved: true, actions: [] });
  });

  it('takes no action that was never shown, and none that destroys its fastener', () => {
    const { shown: _, ...never } = release('x', { tools: [] });
    expect(
      [never, release('y', { tools: [], leaves: 'destroyed' }), release('z', { tools: [] })].map(isUsable),
    ).toEqual([false, false, true]);
  });
});
