import { expect, test } from 'vitest';
import { type Spoil, spoilt } from '../../../test/faults/spoilt-record.ts';
import { checkAssessment } from './check-assessment.ts';

const problems = (...changes: readonly Spoil[]) => checkAssessment(spoilt(...changes));
const found = (...changes: readonly Spoil[]) =>
  problems(...changes).map(({ path, kind }) => `${path.join('/')} ${kind}`);

const own = { specimen: 'b', part: 'battery', fitted: 'own' };

test.each<readonly [string, readonly Spoil[], string]>([
  ['a donor of the own part', [['swaps/w1/fitted', 'own']], 'swaps/w1/donor contradiction'],
  ['a foreign part out of its own host', [['swaps/w1/donor/specimen', 'a']], 'swaps/w1/donor/specimen contradiction'],
  ['a piece that is not at hand', [['swaps/w1/donor/item', 'd2']], 'swaps/w1/donor/item unknown-reference'],
  [
    'a piece for another place',
    [
      ['swaps/w1/donor/item', 'd1'],
      ['swapBench/donors/d1/part', 'board'],
    ],
    'swaps/w1/donor/item contradiction',
  ],
  ['no trace with a failed check', [['swaps/w1/effect', 'E0']], 'swaps/w1/effect contradiction'],
  ['no trace with a notice', [['swaps/w2/notice', { wording: 'Unknown part' }]], 'swaps/w2/effect contradiction'],
  ['more failed starts than starts', [['swaps/w1/starts/failed', 4]], 'swaps/w1/starts/failed contradiction'],
  [
    'a calibration of what was not calibrated',
    [
      ['swaps/w1/calibration', { by: 'owner' }],
      ['swaps/w1/calibrated', false],
    ],
    'swaps/w1/calibrated contradiction',
  ],
  ['before and after of two kinds', [['swaps/w1/measured/0/after', '3 g']], 'swaps/w1/measured/0/after dimension'],
  ['a session on another specimen', [['sessions/x1/specimen', 'b']], 'swaps/w1/specimen contradiction'],
  ['an entry without its session', [['swaps/w1/session', undefined]], 'swaps/w1/entry contradiction'],
  ['an entry its session does not have', [['swaps/w1/entry', 'r1']], 'swaps/w1/entry unknown-reference'],
  ['a correction of nothing', [['swaps/w3/corrects', 'w9']], 'swaps/w3/corrects unknown-reference'],
  ['withdrawn without a correction', [['swaps/w2/withdrawn', true]], 'swaps/w2/withdrawn contradiction'],
  ['two corrections of one fit', [['swaps/w5', { ...own, corrects: 'w4' }]], 'swaps/w5/corrects contradiction'],
  ['corrections in a circle', [['swaps/w4/corrects', 'w3']], 'swaps/w3/corrects cycle'],
  ['one run of two specimens', [['swaps/w2/run', 2]], 'swaps/w2/run contradiction'],
  [
    'one run on two versions',
    [['swaps/w5', { specimen: 'a', part: 'board', run: 2, firmware: '5.1.0' }]],
    'swaps/w5/firmware contradiction',
  ],
  [
    'two fits at one place in one run',
    [['swaps/w5', { specimen: 'a', part: 'battery', run: 2 }]],
    'swaps/w5/part contradiction',
  ],
  [
    'numbers against the dates',
    [
      ['swaps/w2/on', '2026-10-05T10:00:00+02:00'],
      ['swaps/w1/on', '2026-10-04T10:00:00+02:00'],
    ],
    'swaps/w1/on order',
  ],
  ['a version listed twice', [['swapBench/firmware', ['5.0.1', '5.0.1']]], 'swapBench/firmware/1 contradiction'],
  ['a host listed twice', [['swapBench/hosts', ['a', 'a']]], 'swapBench/hosts/1 contradiction'],
  ['a part nobody described', [['swapBench/parts/batery', {}]], 'swapBench/parts/batery unknown-reference'],
  ['a time beyond the longest, in any unit', [['swapBench/start', '27778 h']], 'swapBench/start value'],
  [
    'odds without weight',
    [['swapBench/parts/battery/odds', { accepted: 0 }]],
    'swapBench/parts/battery/odds contradiction',
  ],
])('checkAssessment finds %s', (_, changes, expected) => {
  expect(found(...changes)).toContain(expected);
});

test('a firmware does not go back, by number of run, by date, and by the list of versions', () => {
  const back: Spoil = ['swaps/w5', { ...own, run: 4, firmware: '5.0.0' }];
  const [problem] = problems(back);
  expect(problem).toMatchObject({
    path: ['swaps', 'w5', 'firmware'],
    message: 'a firmware does not go back: specimen "b" had 5.0.1 before (fit "w2")',
    remedy: 'Correct the version, or the order of the runs.',
  });
  expect(found(['swapBench/firmware', ['5.0.1', '5.0.0']], back)).toEqual([]);
  const dated = (firmware: string, on: string) => ({ ...own, firmware, on: `2026-10-0${on}T10:00:00+02:00` });
  expect(found(['swaps', { x: dated('5.1.0', '2'), y: dated('5.0.1', '3') }])).toEqual(['swaps/y/firmware order']);
  expect(found(['swaps', { x: dated('5.1.0', '3'), y: dated('5.0.1', '2') }])).toEqual([]);
});

test('versions that nothing orders are not judged, and one host says nothing of another', () => {
  expect(found(['swaps/w5', { ...own, run: 4, firmware: 'build B' }])).toEqual([]);
  expect(found(['swaps/w5', { specimen: 'a', part: 'battery', run: 4, firmware: '5.1.0' }])).toEqual([]);
});

test('a fit that was corrected or withdrawn is not held against the others', () => {
  expect(found(['swaps/w4/run', 1])).toEqual([]);
  expect(found(['swaps/w3/withdrawn', true])).toEqual([]);
});

test('every problem is found at once, each with the name probably meant', () => {
  const list = problems(
    ['swaps/w1/effect', 'E0'],
    ['swaps/w1/donor/item', 'd'],
    ['swaps/w3/corrects', 'w44'],
    ['swapBench/hosts/0', 'aa'],
    ['swapBench/parts/battery/checks/0', 'start'],
  );
  expect(list.map(({ path }) => path.join('/'))).toEqual([
    'swapBench/hosts/0',
    'swapBench/parts/battery/checks/0',
    'swaps/w1/donor/item',
    'swaps/w1/effect',
    'swaps/w3/corrects',
    'swaps/w4/part',
    'swaps/w4/firmware',
  ]);
  expect(list.map(({ remedy }) => remedy)).toEqual(
    expect.arrayContaining(['Did you mean "starts"?', 'Did you mean "w4"?', 'Did you mean "d1"?']),
  );
});

test('a version that the history of the specimen does not have at that moment is a warning', () => {
  const history: Spoil = [
    'specimens/b/firmware',
    {
      boot: { version: '5.0.1', since: '2026-10-01T09:00:00+02:00' },
      patch: { version: '5.1.0', since: '2026-10-09T09:00:00+02:00' },
    },
  ];
  const on = (moment: string): Spoil => ['swaps/w2/on', moment];
  expect(problems(history, on('2026-10-09T08:00:00Z'))).toMatchObject([
    {
      path: ['swaps', 'w2', 'firmware'],
      severity: 'warning',
      kind: 'suspicious',
      message: 'the history of specimen "b" has 5.1.0 at that moment',
    },
  ]);
  expect(found(history, on('2026-10-09T08:30:00+02:00'))).toEqual([]);
  expect(found(history, on('2026-09-09T08:30:00+02:00'))).toEqual([]);
});

test('more fits of one part than are diagnosed together are refused by the limit, corrected ones not counted', () => {
  const fits = (count: number): Spoil => [
    'swaps',
    Object.fromEntries(Array.from({ length: count }, (_, index) => [`w${index}`, { ...own, run: index }])),
  ];
  expect(found(fits(500))).toEqual([]);
  expect(found(fits(501))).toEqual(['swaps/w500/part limit']);
  expect(found(fits(501), ['swaps/w500', { ...own, corrects: 'w0' }])).toEqual([]);
  expect(problems(fits(501))[0]?.message).toContain('(limit partFits: 500)');
});
