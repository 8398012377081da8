import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { effectTable } from '#swaps/lineage/effect-table';
import type { EffectCode, SwapRun } from '#swaps/model/swap-run';
import { smallRecord } from '../../../test/records/small-record.ts';
import { dutyFindings } from './duty-findings.ts';
import { remoteNeeds } from './remote-needs.ts';
import { rubricFinding, worstOfRole } from './rubric-finding.ts';
import { type JudgedPart, judgedPart, whatDoesIt } from './what-does-it.ts';

type Standing = JudgedPart['standing'][number]['explanation'];
type Raw = Readonly<Record<string, unknown>>;

/** A run as the record has it, and as the diagnosis looks at it. */
interface Made {
  readonly swap: Raw;
  readonly run: SwapRun;
}

const foreign = (effect: EffectCode, change: Partial<SwapRun> = {}, more: Raw = {}): Made => {
  const outcome = effect === 'E0' ? 'passed' : effect === 'E4' ? 'reduced' : 'failed';
  const run: SwapRun = {
    id: '',
    order: 0,
    host: 'a',
    part: 'cell',
    piece: { key: 'specimen:b', home: 'b' },
    isOwn: false,
    handled: true,
    firmware: '5.0',
    calibrated: false,
    authorised: false,
    identityMoved: false,
    outcome,
    together: [],
    attributed: true,
    evidence: [],
    effect,
    ...change,
  };
  return { run, swap: { specimen: 'a', part: 'cell', fitted: 'foreign', effect, ...more } };
};

const judged = (
  standing: readonly Standing[],
  made: readonly Made[],
  setAside: ReadonlyMap<string, string> = new Map(),
): { readonly record: Assessment; readonly part: JudgedPart } => {
  const runs = made.map(({ run }, index) => ({ ...run, id: `w${index + 1}`, order: index + 1 }));
  const cells = effectTable({ runs: new Map([['cell', runs]]), setAside }).rows.flatMap((row) => row.cells);
  return {
    record: smallRecord({
      parts: { cell: { name: 'Cell', role: 'battery' } },
      swaps: Object.fromEntries(made.map(({ swap }, index) => [`w${index + 1}`, swap])),
    }),
    part: {
      part: 'cell',
      runs,
      effects: cells.map((cell) => ({ cell })),
      standing: standing.map((explanation) => ({ explanation })),
    },
  };
};

const refused = foreign('E5');
const taken = foreign('E0');

test.each<[string, readonly Standing[], readonly Made[], string]>([
  ['pairing, latching or not', ['pairing-reversible', 'pairing-latching'], [refused], 'pairing'],
  ['pairing or a bug', ['pairing-reversible', 'unfixed-bug'], [refused], 'software'],
  ['a bug mended on the newest firmware', ['firmware-bug'], [refused, foreign('E0', { firmware: '5.1' })], 'none'],
  ['a missing calibration', ['missing-calibration'], [foreign('E4')], 'calibration'],
  ['accepted', ['accepted'], [taken], 'none'],
  ['a bad donor, with no sound piece seen', ['bad-donor'], [refused], 'open'],
  ['pairing or a bad donor', ['pairing-reversible', 'bad-donor'], [refused], 'open'],
  ['a blocked donor', ['donor-home-locked'], [refused, taken], 'open'],
  ['nothing that stands', [], [refused], 'open'],
])('what does it: %s', (...[, standing, made, cause]) => {
  expect(whatDoesIt(judged(standing, made).part)).toBe(cause);
});

test('a bad donor set aside leaves the sound pieces, which are taken', () => {
  const { record, part } = judged(['bad-donor'], [refused, taken], new Map([['w1', 'bad donor']]));
  expect(whatDoesIt(part)).toBe('none');
  expect(dutyFindings(record, part).map(({ effect, cause, runs }) => [effect, cause, runs])).toEqual([
    ['E0', 'none', ['w2']],
  ]);
});

test('pieces of locked units are told apart from the others, and whether their refusal counts stays open', () => {
  const locked = { key: 'cam-e', kind: 'salvaged-locked-unit', homeLock: 'locked' } as const;
  const { record, part } = judged(['donor-home-locked'], [taken, foreign('E5', { piece: locked })]);
  const diagnosis = { ...part, standing: part.standing.map((one) => ({ ...one, suspicions: [] })), setAside: [] };
  const apart = judgedPart(diagnosis, part.runs);
  expect(dutyFindings(record, apart).map(({ effect, cause, runs }) => [effect, cause, runs])).toEqual([
    ['E0', 'none', ['w1']],
    ['E5', 'open', ['w2']],
  ]);
  expect(rubricFinding(record, apart).words).toEqual(['accepted']);
  expect(remoteNeeds(record, apart)).toMatchObject({ remoteNotification: false, remoteAuthorisation: false });
});

test('duties get a finding for each effect on the newest firmware, with day, notice and evidence', () => {
  const notice = { wording: 'Unknown part', dismissible: true, misleading: true, returns: 'after 24 h' };
  const { record, part } = judged(
    ['pairing-reversible'],
    [
      foreign('E6'),
      foreign(
        'E3',
        { firmware: '5.1' },
        { notice, on: '2026-10-03T10:00:00Z', evidence: ['clip'], donor: { kind: 'used-genuine', specimen: 'b' } },
      ),
      foreign(
        'E3',
        { firmware: '5.1' },
        { notice: { ...notice, dismissible: false }, on: '2026-10-02T10:00:00Z', donor: { kind: 'makers-spare' } },
      ),
      foreign('E5', { firmware: '5.1' }),
    ],
  );
  expect(dutyFindings(record, part)).toEqual([
    {
      part: 'cell',
      effect: 'E3',
      cause: 'pairing',
      standing: ['pairing, reversible'],
      pieces: ["maker's spare", 'used genuine'],
      kinds: ['makers-spare', 'used-genuine'],
      runs: ['w2', 'w3'],
      dismissible: false,
      returns: 'after 24 h',
      misleading: true,
      firmware: '5.1',
      on: '2026-10-03T10:00:00Z',
      evidence: ['clip'],
    },
    expect.objectContaining({ effect: 'E5', runs: ['w4'], evidence: [] }),
  ]);
});

test('without a foreign fit that says anything there is no finding', () => {
  const { record, part } = judged(['accepted'], [foreign('E0', { isOwn: true })]);
  expect(dutyFindings(record, part)).toEqual([]);
  expect(rubricFinding(record, part).words).toHaveLength(8);
});

test.each<[string, readonly Standing[], readonly Made[], readonly string[]]>([
  ['the reproduced effect of pairing', ['pairing-latching'], [refused, refused], ['refused']],
  [
    'refused or accepted, where a bad donor still stands',
    ['pairing-reversible', 'bad-donor'],
    [refused, taken, refused],
    ['refused', 'accepted'],
  ],
  ['both effects where runs disagree', ['pairing-reversible'], [foreign('E2'), refused], ['refused', 'notice']],
  ['reduced, as fitted, where a calibration is missing', ['missing-calibration'], [foreign('E4')], ['reduced']],
  ['accepted on the newest firmware', ['firmware-bug'], [refused, foreign('E0', { firmware: '5.1' })], ['accepted']],
])('a rubric reads %s', (...[, standing, made, words]) => {
  const { record, part } = judged(standing, made);
  const found = rubricFinding(record, part);
  expect(found.words).toEqual(words);
  expect(found.missing.length).toBe(words.length === 1 ? 0 : 1);
});

test('of two parts of a role the worst counts, and one that was not swapped leaves whatever is no better', () => {
  const of = (...words: readonly string[]) => ({ name: 'Cell', finding: { words, missing: [], evidence: [] } });
  const unswapped = { name: 'Ear speaker', finding: undefined };
  expect(worstOfRole([of('accepted'), of('refused')])?.words).toEqual(['refused']);
  expect(worstOfRole([of('refused', 'accepted'), of('notice')])?.words).toEqual(['refused', 'notice']);
  expect(worstOfRole([of('reduced'), unswapped])?.words).toEqual(['lasting', 'no-start', 'refused', 'reduced']);
  expect(worstOfRole([of('reduced'), unswapped])?.missing.map(({ what }) => what)).toEqual([
    'what the software makes of another Ear speaker: it was not swapped',
  ]);
  expect(worstOfRole([unswapped])).toBeUndefined();
});

const step = (remote: string | undefined, change: Partial<SwapRun> = {}): Made =>
  foreign('E0', { authorised: true, ...change }, { arm: 'authorised', ...(remote ? { pairing: { remote } } : {}) });

test.each<[string, readonly Standing[], readonly Made[], readonly unknown[] | undefined]>([
  ['an authorisation, and no other', ['pairing-reversible'], [refused, step('authorisation')], [false, true]],
  ['a notification, and no other', ['pairing-latching'], [refused, step('notification')], [true, false]],
  [
    'none, where the device alone is enough',
    ['pairing-reversible'],
    [refused, step('authorisation'), step('none')],
    [false, false],
  ],
  ['none, where sound pieces are taken', ['accepted'], [taken], [false, false]],
  [
    'none, after a calibration without authorisation',
    ['missing-calibration'],
    [foreign('E4'), foreign('E0', { calibrated: true })],
    [false, false],
  ],
  ['open, where the step is not named', ['pairing-reversible'], [refused, step(undefined)], undefined],
  ['open, without a step that gave full function', ['pairing-reversible'], [refused], undefined],
  [
    'open, where another action went before on the same fit',
    ['pairing-reversible'],
    [
      refused,
      { ...step('notification'), run: { ...step('notification').run, outcome: 'failed', effect: 'E5' } },
      step('authorisation'),
    ],
    undefined,
  ],
  [
    'none, for a notice that the device alone clears',
    ['pairing-reversible'],
    [foreign('E3'), step('none')],
    [false, false],
  ],
  ['open, for a notice alone', ['pairing-reversible'], [foreign('E2'), step('authorisation')], undefined],
  ['open, where pairing is not told from a bug', ['pairing-reversible', 'unfixed-bug'], [refused], undefined],
])('remote actions for full function: %s', (...[, standing, made, expected]) => {
  const { record, part } = judged(standing, made);
  const found = remoteNeeds(record, part);
  expect(found && [found.remoteNotification, found.remoteAuthorisation]).toEqual(expected);
});
