import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { DEFAULT_COUNTING } from '#routes/steps/counting-rules';
import { searchBest } from '#schemes/eu-2023-1669/bases/best-search';
import { groundworkOf, readingsOf } from '#verdict/index-bases';
import { smallRecord } from '../../../test/records/small-record.ts';
import { routeSource } from '../problem/route-source.ts';
import { openTrials, type WeighedTrial } from './open-trials.ts';
import { withTrial } from './with-trial.ts';

const screw = (between: readonly [string, string], more = {}) => ({
  kind: 'screw',
  between,
  ways: { turn: { actions: [{ do: 'unscrew', tools: ['driver'] }], leaves: 'reusable' } },
  ...more,
});

/** Cover, coil and battery, taken off one after another: nobody tried whether the battery comes with the coil in. */
const STACK = {
  parts: {
    cover: { role: 'back-cover', behind: [] },
    coil: { behind: [['cover']] },
    battery: { role: 'battery' },
  },
  fasteners: {
    'cover-screws': screw(['cover', 'chassis'], { behind: [] }),
    'coil-screws': screw(['coil', 'chassis'], { behind: [['cover']] }),
    'battery-screws': screw(['battery', 'chassis'], { behind: [['cover']] }),
  },
};
const LOG = [
  ['unscrew', 'cover-screws', ['driver']],
  ['lift', 'cover'],
  ['unscrew', 'coil-screws', ['driver']],
  ['lift', 'coil'],
  ['unscrew', 'battery-screws', ['driver']],
  ['lift', 'battery'],
] as const;
const stack = (parts: object = {}): Assessment =>
  smallRecord({ ...STACK, parts: { ...STACK.parts, ...parts }, log: LOG });

const trialsOf = (record: Assessment): readonly WeighedTrial[] => openTrials(record, DEFAULT_COUNTING);

/** Both ends by the engine of the verdict. */
const ends = (record: Assessment, part: string) => {
  const { problems, source } = groundworkOf(record);
  const { shown, possible } = searchBest(problems, { source, readings: readingsOf(record), part });
  return {
    shown: shown.kind === 'found' ? shown.steps : undefined,
    atLeast: possible.kind === 'found' ? possible.bound : undefined,
  };
};

test('openTrials asks for the battery with the coil in, and says between which steps it lies either way', () => {
  const [first, ...rest] = trialsOf(stack());
  expect([first?.subject, [...(first?.off ?? [])].sort()]).toEqual([
    'battery',
    ['battery-screws', 'cover', 'cover-screws'],
  ]);
  expect(first?.moves).toEqual([{ part: 'battery', shown: 3, atLeast: 2, ifCame: 2, ifNot: 2 }]);
  expect(rest.every(({ moves }) => moves.length <= 1)).toBe(true);
});

test('what a trial could move is what the ordinary engine says once it stands in the record', () => {
  let replayed = 0;
  for (const record of [stack(), stack({ coil: {} }), stack({ cover: { role: 'back-cover' }, coil: {} })])
    for (const trial of trialsOf(record))
      for (const { part, shown, atLeast, ifCame, ifNot } of trial.moves) {
        const source = routeSource(record);
        expect(ends(record, part)).toEqual({ shown, atLeast });
        expect(ends(withTrial(source, trial, 'yes'), part).shown).toBe(ifCame);
        expect(ends(withTrial(source, trial, 'no'), part).atLeast).toBe(ifNot);
        replayed += 1;
      }
  expect(replayed).toBeGreaterThan(2);
});

test('a trial on which it hangs whether a part is reached at all comes before one that moves steps', () => {
  const display = { role: 'display' };
  const record = smallRecord({
    ...STACK,
    parts: { ...STACK.parts, display },
    fasteners: { ...STACK.fasteners, 'display-screws': screw(['display', 'chassis'], { behind: [] }) },
    log: [...LOG, ['unscrew', 'display-screws', ['driver']]],
  });
  const [first] = trialsOf(record);
  expect(first?.subject).toBe('display');
  expect(first?.moves.map(({ part, shown, ifCame }) => [part, shown, ifCame])).toEqual([['display', undefined, 1]]);
});

test('a sight leaves nothing to try, nor is a trial asked again that came but damaged something', () => {
  expect(trialsOf(stack({ battery: { role: 'battery', behind: [['cover']] } }))).toEqual([]);
  const [first] = trialsOf(stack());
  const off = [...(first?.off ?? [])].reverse();
  const made = stack({ battery: { role: 'battery', trials: { t1: { off, came: 'damaged' } } } });
  const sets = trialsOf(made).map((trial) => [trial.subject, ...[...trial.off].sort()].join(' '));
  expect(sets).not.toContain(['battery', ...off.sort()].join(' '));
});

test('the order of ids in the record changes nothing in what the trials move', () => {
  const turned = (all: object) => Object.fromEntries(Object.entries(all).reverse());
  const record = stack();
  const back = smallRecord({ parts: turned(STACK.parts), fasteners: turned(STACK.fasteners), log: LOG });
  const said = (one: Assessment) =>
    trialsOf(one).map(({ subject, off, moves }) => ({ subject, off: [...off].sort(), moves }));
  expect(said(back)).toEqual(said(record));
});

test('a part that only a log names keeps the role it was taken for when a trial is put into its record', () => {
  const record = smallRecord({ log: LOG });
  const supposed = withTrial(routeSource(record), { subject: 'battery', off: [] }, 'yes');
  expect(supposed.parts?.battery).toEqual({ role: 'battery', trials: { supposed: { off: [], came: 'yes' } } });
});
