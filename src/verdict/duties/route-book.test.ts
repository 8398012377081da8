import { describe, expect, it } from 'vitest';
import { type LogLine, smallRecord } from '../../../test/records/small-record.ts';
import { groundworkOf, readingsOf } from '../index-bases.ts';
import { routeBook } from './route-book.ts';

type Raw = Readonly<Record<string, unknown>>;

const COVER = { kind: 'adhesive', between: ['cover', 'chassis'], behind: [] };
const WARM = {
  actions: [
    { do: 'heat', tools: ['mat'], place: 'rear edge' },
    { do: 'pry', tools: ['pick'] },
  ],
  leaves: 'removable',
};
const LOG: readonly LogLine[] = [
  ['heat', 'glue', ['mat'], { way: 'warm' }],
  ['pry', 'glue', ['pick'], { way: 'warm' }],
  ['lift', 'cover'],
  ['unscrew', 'screws', ['driver'], { way: 'driver' }],
  ['lift', 'battery'],
];

/** A battery under two screws behind a cover that is glued on; the ways of the glue are the question. */
const bookOf = (ways: Raw, more: Raw = {}) => {
  const record = smallRecord({
    parts: { cover: { role: 'back-cover', behind: [] }, battery: { role: 'battery', behind: [['cover']] } },
    fasteners: {
      glue: { ...COVER, ways },
      screws: {
        kind: 'screw',
        count: 2,
        between: ['battery', 'chassis'],
        behind: [['cover']],
        ways: { driver: { actions: [{ do: 'unscrew', tools: ['driver'] }], leaves: 'reusable' } },
      },
    },
    log: LOG,
    ...more,
  });
  return routeBook(groundworkOf(record), readingsOf(record));
};

const criterion = (
  over: { fasteners?: readonly string[]; tools?: readonly string[]; without?: readonly ('heat' | 'solvent')[] } = {},
) => ({
  fasteners: new Set(over.fasteners ?? ['reusable', 'resupplied', 'removable']),
  tools: new Set(over.tools ?? ['none', 'basic', 'commercial']),
  without: new Set(over.without ?? []),
});

describe('routeBook', () => {
  it('looks at the whole way from the complete product, with heat and what comes off', () => {
    const [route] = bookOf({ warm: WARM }).routesTo('battery');
    expect(route?.fasteners.map(({ id, best }) => [id, best])).toEqual([
      ['glue', 'resupplied'],
      ['screws', 'reusable'],
    ]);
    expect(route?.tools.map(({ id, best, other }) => [id, best, other?.best])).toEqual([
      ['mat', 'with-spare', 'commercial'],
      ['pick', 'basic', 'commercial'],
      ['driver', 'basic', 'commercial'],
    ]);
    expect([route?.heat, route?.off]).toEqual([['heat at the rear edge'], ['cover', 'battery']]);
    expect(route?.evidence).toEqual(['sessions/run']);
  });

  it('a way within the criterion that the log shows is shown', () => {
    expect(bookOf({ warm: WARM }).admits('battery', criterion())).toBe('shown');
  });

  it('where every way on record needs heat, none is without it', () => {
    expect(bookOf({ warm: WARM }).admits('battery', criterion({ without: ['heat'] }))).toBe('none');
    const held = bookOf(
      { warm: { ...WARM, actions: [{ do: 'pry', tools: ['mat'] }] } },
      {
        tools: {
          mat: { name: 'Mat', basicKind: null, onSale: true, licensable: true, withProduct: false, hazard: 'heat' },
          driver: {
            name: 'Driver',
            basicKind: 'cross-recess-driver',
            onSale: true,
            licensable: true,
            withProduct: false,
          },
        },
        log: [['pry', 'glue', ['mat'], { way: 'warm' }], ...LOG.slice(2)],
      },
    );
    expect(held.admits('battery', criterion({ without: ['heat'] }))).toBe('none');
  });

  it('a way that is on record and was never done makes it possible, not shown', () => {
    const cold = { actions: [{ do: 'pry', tools: ['pick'] }], leaves: 'removable' };
    expect(bookOf({ warm: WARM, cold }).admits('battery', criterion({ without: ['heat'] }))).toBe('possible');
  });

  it('an adhesive of which no kit was seen may be resupplied: possible; a kit without it excludes that', () => {
    const strict = criterion({ fasteners: ['reusable', 'resupplied'] });
    expect(bookOf({ warm: WARM }).admits('battery', strict)).toBe('possible');
    const spares = {
      pack: { name: 'Pack', replaces: ['battery'], contents: { fasteners: [], tools: [], standing: 'established' } },
    };
    expect(bookOf({ warm: WARM }, { spares }).admits('battery', strict)).toBe('none');
  });

  it('of a part that nothing on record frees nobody can say that no way fits', () => {
    expect(bookOf({}, { log: [] }).admits('battery', criterion())).toBe('possible');
  });
});
