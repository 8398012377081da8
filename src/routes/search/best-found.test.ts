import { expect, test } from 'vitest';
import type { Fact, RouteAction, RouteAtom, RouteProblem } from '../problem/route-problem.ts';
import { DEFAULT_COUNTING } from '../steps/counting-rules.ts';
import { type BestFoundOptions, bestFound } from './best-found.ts';
import { type Unreachable, unreachableWords } from './unreachable.ts';

const CLASS: Readonly<Record<string, number>> = { reusable: 5, resupplied: 3, removable: 1 };
const points = {
  fastener: (action: RouteAction): number => CLASS[action.leaves ?? ''] ?? 5,
  tool: (tool: string): number => ({ bought: 1, driver: 4, spudger: 4 })[tool] ?? 5,
};

const release = (fastener: string, tool: string, more: Partial<RouteAction> = {}): RouteAction => ({
  id: `release/${fastener}/${tool}`,
  kind: 'release',
  subject: fastener,
  way: tool,
  atoms: [{ do: 'unscrew', tools: [tool], milliseconds: 1000 }],
  needs: [],
  anyOf: [],
  gives: [`released/${fastener}`],
  leaves: 'reusable',
  shown: 'bench',
  ...more,
});
const lift = (part: string, needs: Fact[], more: Partial<RouteAction> = {}): RouteAction => ({
  id: `lift/${part}`,
  kind: 'lift',
  subject: part,
  atoms: [{ do: 'lift', tools: [], milliseconds: 500, removes: { part, becomes: 'free' } }],
  needs,
  anyOf: [],
  gives: [`off/${part}`, `free/${part}`],
  shown: 'bench',
  ...more,
});
const device = (
  actions: RouteAction[],
  priorityParts: string[] = [],
  more: Partial<RouteProblem> = {},
): RouteProblem => ({
  reach: 'pessimistic',
  tools: ['driver', 'spudger', 'bought'].map((id) => ({ id, pickupMilliseconds: 2000, holdingAid: false })),
  actions,
  priorityParts,
  unreachable: {},
  ...more,
});
const find = (problem: RouteProblem, target: Fact, more: Partial<BestFoundOptions> = {}) =>
  bestFound(problem, target, { rules: DEFAULT_COUNTING, points, ...more });
const found = (problem: RouteProblem, target: Fact, more: Partial<BestFoundOptions> = {}) => {
  const result = find(problem, target, more);
  if (result.kind !== 'found') throw new Error(result.why);
  return result;
};
const barred = (problem: RouteProblem, target: Fact, more: Partial<BestFoundOptions> = {}): Unreachable => {
  const result = find(problem, target, more);
  if (result.kind !== 'unreachable') throw new Error('reached');
  return result;
};

test('points look at the stretch since the last other priority part came off', () => {
  const problem = device(
    [
      release('glue', 'bought', { leaves: 'removable' }),
      lift('cover', ['released/glue']),
      release('screws', 'driver', { needs: ['off/cover'] }),
      lift('battery', ['released/screws']),
    ],
    ['cover', 'battery'],
  );
  const battery = found(problem, 'free/battery');
  expect([battery.steps, battery.points, battery.stretchFrom]).toEqual([2, { fastener: 5, tool: 4 }, 2]);
  expect(found(problem, 'free/cover').points).toEqual({ fastener: 1, tool: 1 });
});

test('a priority part that leaves together with the target begins no stretch', () => {
  const problem = device(
    [
      release('glue', 'bought', { leaves: 'removable' }),
      lift('cover', ['released/glue'], { gives: ['off/cover', 'free/cover', 'off/button'] }),
    ],
    ['cover', 'button'],
  );
  expect(found(problem, 'off/button').points).toEqual({ fastener: 1, tool: 1 });
});

test('a priority part lifted for no need is no way to better points', () => {
  const either: RouteAction['anyOf'] = [[['off/camera'], ['off/speaker']]];
  const problem = device(
    [
      lift('speaker', []),
      release('glue', 'bought', { leaves: 'removable', needs: ['off/speaker'] }),
      lift('camera', []),
      release('screws', 'driver', { anyOf: either, needs: ['released/glue'] }),
      lift('board', ['released/screws', 'released/glue']),
    ],
    ['camera', 'board'],
  );
  const board = found(problem, 'free/board');
  expect(board.route).not.toContain('lift/camera');
  expect([board.steps, board.points]).toEqual([3, { fastener: 1, tool: 1 }]);
});

test('fewest steps come before points, and points before time', () => {
  const screws = { milliseconds: 9000, do: 'unscrew', tools: ['driver'] } as const;
  const problem = device([
    release('screws', 'driver', { atoms: [screws] }),
    release('screws', 'bought', { leaves: 'removable' }),
    lift('plate', ['released/screws']),
  ]);
  expect(found(problem, 'free/plate').route).toEqual(['release/screws/driver', 'lift/plate']);
  const heated: RouteAtom[] = [{ do: 'heat', tools: ['driver'], milliseconds: 1 }, screws];
  const withHeat = {
    ...problem,
    actions: problem.actions.map((one, at) => (at === 0 ? { ...one, atoms: heated } : one)),
  };
  expect(found(withHeat, 'free/plate').route).toEqual(['release/screws/bought', 'lift/plate']);
});

test('ways not shown, and ways that destroy, are taken only where asked for', () => {
  const ways = [release('a', 'driver', { leaves: 'destroyed' }), lift('p', ['released/a'])];
  expect(barred(device(ways), 'off/p').barriers.map((one) => [one.fact, one.why])).toEqual([
    ['released/a', 'destroys'],
  ]);
  expect(found(device(ways), 'off/p', { allowDestroyed: true }).steps).toBe(1);
  const { shown: _, ...unshown } = release('a', 'driver');
  const open = device([unshown, lift('p', ['released/a'])]);
  expect(barred(open, 'off/p').barriers.map((one) => one.why)).toEqual(['not-shown']);
  expect(found(open, 'off/p', { allowNotShown: true }).steps).toBe(1);
});

test('what the problem says of an unreachable part is the reason given', () => {
  const problem = device([lift('p', ['released/a'])], [], { unreachable: { a: 'no trial shows it' } });
  expect(barred(problem, 'off/p').why).toBe('a: no trial shows it');
});

test('the reason is worded with names and ways instead of ids', () => {
  const names: Readonly<Record<string, string>> = { 'ring-screws': 'camera ring screws', 'big-driver': 'long driver' };
  const nameOf = (id: string): string => names[id] ?? id;
  const { shown: _, ...unshown } = release('ring-screws', 'big-driver');
  const open = barred(device([unshown, lift('p', ['released/ring-screws'])]), 'off/p');
  expect(unreachableWords(open, nameOf)).toBe(
    'camera ring screws: never shown to work (camera ring screws, by big driver)',
  );
  const shut = device([release('ring-screws', 'big-driver'), lift('p', ['released/ring-screws'])]);
  const noTool = barred(shut, 'off/p', { tools: new Set() });
  expect(unreachableWords(noTool, nameOf)).toBe('not with these tools: add long driver');
});

test('within a named tool set, the smallest further sets of tools are named', () => {
  const problem = device([
    release('a', 'driver'),
    release('b', 'spudger'),
    release('b', 'bought'),
    lift('p', ['released/a', 'released/b']),
  ]);
  const result = barred(problem, 'off/p', { tools: new Set() });
  expect(result.addTools).toEqual([
    ['bought', 'driver'],
    ['driver', 'spudger'],
  ]);
  expect(barred(problem, 'off/p', { tools: new Set(['driver']) }).addTools).toEqual([['bought'], ['spudger']]);
  expect(found(problem, 'off/p', { tools: new Set(['driver', 'spudger']) }).steps).toBe(2);
});

test('durations that are not known are listed and count nothing', () => {
  const problem = device([
    release('a', 'driver', { atoms: [{ do: 'unscrew', tools: ['driver'] }] }),
    lift('p', ['released/a']),
  ]);
  const result = found(problem, 'off/p');
  expect([result.milliseconds, result.missingDurations]).toEqual([2500, ['release/a/driver']]);
});

test('at its limit a search returns a route, a bound, and no proof', () => {
  const names = ['a', 'b', 'c', 'd', 'e'];
  const problem = device([
    ...names.map((name, at) => release(name, at % 2 ? 'driver' : 'spudger')),
    ...names.map((name) => lift(name, [`released/${name}`])),
    lift(
      'core',
      names.map((name): Fact => `off/${name}`),
    ),
  ]);
  const cut = found(problem, 'off/core', { limits: { nodes: 1 } });
  const whole = found(problem, 'off/core');
  expect([cut.proved, whole.proved, whole.bound]).toEqual([false, true, whole.steps]);
  expect(cut.bound).toBeLessThanOrEqual(whole.steps);
  expect(cut.steps).toBeGreaterThanOrEqual(whole.steps);
  let time = 0;
  const late = { nodes: 1e6, milliseconds: -1, now: () => time++ };
  expect(found(problem, 'off/core', { limits: late }).steps).toBeGreaterThanOrEqual(whole.steps);
});

test('several targets are reached by one route', () => {
  const problem = device([release('a', 'driver'), lift('p', ['released/a']), lift('q', ['released/a'])]);
  const both = bestFound(problem, ['off/p', 'off/q'], { rules: DEFAULT_COUNTING, points });
  expect(both.kind === 'found' ? both.steps : both.why).toBe(2);
});

test('a part laid aside to save a change of tool is no needless action', () => {
  const problem = device(
    [
      release('edge', 'spudger'),
      release('tape', 'spudger'),
      release('strip', 'driver'),
      lift('battery', ['released/edge', 'released/tape']),
      lift('display', ['released/edge', 'released/strip']),
      release('shield', 'driver', {
        anyOf: [[['released/strip', 'off/battery'], ['off/display']]],
      }),
      release('cover', 'spudger', { needs: ['off/display', 'released/shield'] }),
      lift('back', ['released/cover']),
    ],
    ['battery', 'display', 'back'],
  );
  const result = found(problem, 'free/back');
  // Without the battery off, the shield's screws wait for the display, and one more change of tool is needed.
  expect([result.steps, result.proved]).toEqual([3, true]);
  expect(result.route).toContain('lift/battery');
});

test('what waits for the same barrier is no barrier itself, whatever it is called', () => {
  const problem = device([
    release('a', 'driver', { needs: ['off/x'] }),
    release('b', 'driver', { needs: ['off/x'] }),
    lift('p', ['released/a', 'released/b']),
    lift('x', ['released/x']),
  ]);
  const { barriers, why } = barred(problem, 'off/p');
  expect(barriers.map((one) => [one.fact, one.why])).toEqual([['released/x', 'no-action']]);
  expect(why).toBe('x: no action gives it released');
});

const untried = (fastener: string): RouteAction => {
  const { shown: _, ...action } = release(fastener, 'driver');
  return action;
};

test('all barriers that each block by themselves are named, and not those that another way passes by', () => {
  const either = device([
    untried('a'),
    untried('b'),
    untried('c'),
    lift('p', ['released/b'], { anyOf: [[['released/a'], ['released/c']]] }),
  ]);
  expect(barred(either, 'off/p').why).toBe(
    'b: never shown to work (b, by driver); and of the rest the fewest that would open a way: a: never shown to work (a, by driver)',
  );
  const both = device([untried('a'), lift('p', ['released/a', 'released/b'])]);
  expect(barred(both, 'off/p').why).toBe('a: never shown to work (a, by driver); b: no action gives it released');
});

test('a circle is named only where nothing outside it is waited for', () => {
  const round = [release('a', 'driver', { needs: ['off/q'] }), lift('q', ['released/a'])];
  const alone = barred(device([...round, lift('p', ['off/q'])]), 'off/p');
  expect(alone.barriers.map((one) => [one.fact, one.why])).toEqual([
    ['off/q', 'circle'],
    ['released/a', 'circle'],
  ]);
  expect(alone.why).toMatch(/^the fewest that would open a way: q: every way needs something that itself needs it off/);
  const waiting = barred(device([...round, lift('p', ['released/x', 'off/q'])]), 'off/p');
  expect(waiting.blocking.every.map((one) => one.fact)).toEqual(['released/x']);
  expect(waiting.blocking.besides.map((one) => one.fact)).toEqual(['off/q']);
});
