import { describe, expect, it } from 'vitest';
import { type TinyRecord, tinySession, tinySource } from '../../../test/fixtures/tiny-record.ts';
import { routeProblem } from './from-record.ts';
import { reachCondition } from './reachability.ts';
import { precedencesOf } from './requirements.ts';
import type { Reach } from './route-problem.ts';

const unscrewing = { d: { actions: [{ do: 'unscrew', tools: ['driver'] }] } };
const screw = (between: [string, string], rest = {}) => ({ kind: 'screw', between, ways: unscrewing, ...rest });
const tools = { driver: { pickup: 3 } };
const actionIds = (rest: TinyRecord, reach: Reach) => routeProblem(tinySource({ tools, ...rest }), reach).actions;
const byId = (rest: TinyRecord, reach: Reach = 'pessimistic') =>
  Object.fromEntries(actionIds(rest, reach).map((action) => [action.id, action]));

describe('reachCondition', () => {
  const condition = (p: Record<string, unknown>, reach: Reach) => {
    const source = tinySource({ parts: { a: {}, b: {}, ghost: { absent: true }, p } });
    const trials = source.trials.get('p');
    return trials && reachCondition('p', trials, { device: source.device, reach });
  };
  const came = (...off: string[]) => ({ off, came: 'yes' });
  const not = (...off: string[]) => ({ off, came: 'no' });

  it('is never met pessimistically and always optimistically where nothing is shown', () => {
    expect(condition({}, 'pessimistic')).toMatchObject({ reachable: false });
    expect(condition({}, 'optimistic')).toEqual({ reachable: true, needs: [], anyOf: [] });
  });

  it('by sight is the whole function, for both', () => {
    for (const reach of ['pessimistic', 'optimistic'] as const) {
      expect(condition({ behind: [] }, reach)).toEqual({ reachable: true, needs: [], anyOf: [] });
      expect(condition({ behind: [['a', 'b']] }, reach)).toEqual({
        reachable: true,
        needs: ['off/a', 'off/b'],
        anyOf: [],
      });
      expect(condition({ behind: [['a'], ['b']] }, reach)).toMatchObject({
        needs: [],
        anyOf: [[['off/a'], ['off/b']]],
      });
      expect(condition({ behind: [['a', 'ghost']] }, reach)).toMatchObject({ needs: ['off/a'] });
    }
  });

  it('pessimistically asks for the whole set of one success; two successes are alternatives, never mixed', () => {
    expect(condition({ trials: { x: came('a', 'b') } }, 'pessimistic')).toMatchObject({ needs: ['off/a', 'off/b'] });
    expect(condition({ trials: { x: came('a'), y: came('b') } }, 'pessimistic')).toMatchObject({
      anyOf: [[['off/a'], ['off/b']]],
    });
  });

  it('optimistically asks for something outside every failed set', () => {
    expect(condition({ trials: { x: not('a') } }, 'optimistic')).toMatchObject({ anyOf: [[['off/b']]] });
    expect(condition({ trials: { x: not('a'), y: not('b') } }, 'optimistic')).toMatchObject({
      anyOf: [[['off/b']], [['off/a']]],
    });
    expect(condition({ trials: { x: not('a', 'b') } }, 'optimistic')).toMatchObject({ reachable: false });
  });

  it('lets a success stand against a failure that contradicts it', () => {
    expect(condition({ trials: { x: came('a'), y: not('a', 'b') } }, 'optimistic')).toMatchObject({
      anyOf: [[['off/a']]],
    });
  });
});

describe('precedencesOf', () => {
  const base: TinyRecord = {
    parts: { battery: { role: 'battery' }, cell: { within: 'battery' }, board: {}, psu: { role: 'power-unit' } },
    fasteners: {
      plug: { kind: 'connector', between: ['battery', 'board'] },
      weld: { kind: 'solder', between: ['cell', 'battery'] },
      flex: {
        kind: 'connector',
        between: ['board', 'chassis'],
        requires: { hold: { first: ['psu'], why: 'support' } },
      },
      passive: { kind: 'connector', between: ['board', 'chassis'], electrical: false },
    },
  };
  const first = (subject: string, rest: TinyRecord = {}) => {
    const { assessment, device } = tinySource({ ...base, ...rest });
    return precedencesOf(subject, assessment, device).map(({ why, first: facts }) => [why, ...facts]);
  };

  it('isolates every electrical fastener and power unit by the battery connector, but for that itself', () => {
    expect(first('plug')).toEqual([]);
    expect(first('weld')).toEqual([['isolation', 'released/plug']]);
    expect(first('psu')).toEqual([['isolation', 'released/plug']]);
    expect(first('passive')).toEqual([]);
  });

  it('adds what is recorded, and drops exactly what a decision overrides', () => {
    expect(first('flex')).toEqual([
      ['isolation', 'released/plug'],
      ['support', 'off/psu'],
    ]);
    const decision = (overrides: string): TinyRecord => ({
      decisions: { d: { overrides, reason: 'no rail', by: 'M. R.' } },
    });
    expect(first('flex', decision('/fasteners/flex/requires/isolation'))).toEqual([['support', 'off/psu']]);
    expect(first('flex', decision('fasteners/flex/requires/hold'))).toEqual([['isolation', 'released/plug']]);
  });
});

describe('routeProblem', () => {
  it('lifts a carrier free once its crossing fasteners are released, and its contents go aside with it', () => {
    const made = byId({
      parts: { cover: { behind: [] }, lens: { within: 'cover', behind: [['cover']] } },
      fasteners: { s: screw(['cover', 'chassis'], { behind: [] }), clip: screw(['lens', 'cover'], { behind: [] }) },
    });
    expect(made['lift/cover']).toMatchObject({ needs: ['released/s'], gives: ['free/cover', 'off/cover', 'off/lens'] });
    expect(made['lift/lens']).toMatchObject({
      needs: ['off/cover', 'released/clip'],
      gives: ['free/lens', 'off/lens'],
    });
  });

  it('folds a part aside while a tether holds, and lifts it free only without', () => {
    const made = byId({
      parts: { display: { behind: [] }, board: {} },
      fasteners: {
        s: screw(['display', 'chassis'], { behind: [] }),
        flex: { kind: 'connector', between: ['display', 'board'], tether: true, behind: [['display']] },
      },
    });
    expect(made['fold/display']).toMatchObject({ needs: ['released/s'], gives: ['off/display'] });
    expect(made['lift/display']).toMatchObject({ needs: ['released/s', 'released/flex'] });
  });

  it('counts a way pessimistically only where a bench did it or a procedure has it', () => {
    const ways = {
      done: { actions: [{ do: 'unscrew', tools: ['driver'] }] },
      guide: { actions: [{ do: 'pry', tools: ['driver'] }] },
      never: { actions: [{ do: 'cut', tools: ['driver'] }] },
    };
    const rest: TinyRecord = {
      parts: { p: {} },
      fasteners: { s: { kind: 'screw', between: ['p', 'chassis'], ways } },
      sessions: { x: tinySession({ a: { do: 'unscrew', target: 's', tools: ['driver'] } }) },
      procedures: { g: { for: 'p', steps: [{ do: 'pry', target: 's', tools: ['driver'] }] } },
    };
    const shown = (reach: Reach) =>
      Object.fromEntries(
        actionIds(rest, reach)
          .filter(({ kind }) => kind === 'release')
          .map(({ way, shown: how }) => [way, how]),
      );
    expect(shown('pessimistic')).toEqual({ done: 'bench', guide: 'procedure', never: undefined });
    expect(shown('optimistic')).toEqual({ done: 'bench', guide: 'procedure', never: 'sight' });
  });

  it('says what is missing where nothing shows a part reachable, and puts a free action in its place optimistically', () => {
    const rest: TinyRecord = {
      parts: { p: {} },
      fasteners: { s: { kind: 'screw', between: ['p', 'chassis'], behind: [] } },
    };
    const pessimistic = routeProblem(tinySource({ tools, ...rest }), 'pessimistic');
    expect(pessimistic.actions).toEqual([]);
    expect(Object.keys(pessimistic.unreachable)).toEqual(['s', 'p']);
    const optimistic = routeProblem(tinySource({ tools, ...rest }), 'optimistic');
    expect(optimistic.actions.map(({ id }) => id)).toEqual(['release/s/unknown', 'lift/p']);
    expect(optimistic.unreachable).toEqual({});
  });

  it('does not take a part of which a log shows only that it was laid aside for shown free', () => {
    const made = byId({ sessions: { x: tinySession({ a: { do: 'fold-aside', target: 'display', tools: [] } }) } });
    expect(made['fold/display']?.shown).toBe('bench');
    expect(made['lift/display']?.shown).toBeUndefined();
  });

  it('uses the mean of measured times, else what the record says', () => {
    const rest: TinyRecord = {
      parts: { p: { removal: { takes: 7 }, behind: [] } },
      fasteners: { s: screw(['p', 'chassis']) },
      sessions: {
        x: tinySession({
          a: { do: 'unscrew', target: 's', tools: ['driver'], took: 23 }, // 23 - 3 picked up = 20
          b: { do: 'fasten', target: 's', tools: ['driver'] },
          c: { do: 'unscrew', target: 's', tools: ['driver'], took: 30 }, // still in hand: 30
        }),
      },
    };
    const made = byId(rest);
    expect(made['release/s/d']?.atoms[0]?.milliseconds).toBe(25_000);
    expect(made['lift/p']?.atoms[0]?.milliseconds).toBe(7_000);
  });
});
