import { expect, test } from 'vitest';
import type { Assessment, Entry } from '#record/schema/assessment';
import { applyPatch } from '../ledger/apply-patch.ts';
import { describePatch } from './describe-fastener.ts';
import { fastenerRows, holdersOf } from './fastener-rows.ts';
import { namesToConfirm } from './names-to-confirm.ts';
import { reviewSource, shownOf, sightWords } from './review-source.ts';
import { behindPatch, sightQuestion } from './sight-answer.ts';
import { answerOf, draftOf, toggled } from './sight-draft.ts';
import { sightFaults } from './sight-faults.ts';

const entries: Readonly<Record<string, Entry>> = {
  e1: { at: 10, do: 'lift', target: 'cover', naming: 'suggested' },
  e2: { at: 20, do: 'lift', target: 'camera', goal: 'camera', naming: 'suggested', reviewed: true },
  e3: { at: 30, do: 'lift', target: 'battery', goal: 'battery', outcome: 'failed', because: 'blocked' },
  e4: { at: 35 },
  e5: { at: 40, do: 'unscrew', target: 'bracket-screws', goal: 'battery', naming: 'by-hand' },
  e6: { at: 50, do: 'lift', target: 'battery', goal: 'battery', naming: 'suggested' },
};
const base: Assessment = {
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn 5' },
  sessions: { m1: { kind: 'measured', specimen: 'a', start: '2026-11-25T10:00:00Z', startsAs: 'complete', entries } },
} as Assessment;
const source = reviewSource(base);
const battery = shownOf(source, 'battery');

test('a part is asked with what was off when it came, ticked but for what was done for another goal', () => {
  const question = sightQuestion('battery', source.device, battery);
  expect(question.candidates).toEqual(['cover', 'camera', 'bracket-screws']);
  expect(question.answer).toEqual([['cover', 'bracket-screws']]);
  expect(question.from?.address).toBe('sessions/m1/entries/e6');
  expect(sightQuestion('cover', source.device, shownOf(source, 'cover')).answer).toEqual([]);
});

test('a part that holds on by its own fasteners is not asked about them, nor about what goes along', () => {
  const document = {
    ...base,
    parts: { battery: {}, cell: { within: 'battery' } },
    fasteners: { 'bracket-screws': { kind: 'screw', between: ['battery', 'chassis'] } },
  } as Assessment;
  const own = reviewSource(document);
  const question = sightQuestion('battery', own.device, shownOf(own, 'battery'));
  expect(question.candidates).toEqual(['cover', 'camera']);
});

test('the recorded answer comes before what the log would say, and its things can always be named', () => {
  const document = { ...base, parts: { battery: { behind: [['foil']] }, foil: {} } } as Assessment;
  const own = reviewSource(document);
  const question = sightQuestion('battery', own.device, shownOf(own, 'battery'));
  expect(question.answer).toEqual([['foil']]);
  expect(question.candidates).toContain('foil');
});

test('a part that never came off is asked with everything there is, and nothing is answered for it', () => {
  const document = { ...base, parts: { motor: {} } } as Assessment;
  const own = reviewSource(document);
  const question = sightQuestion('motor', own.device, shownOf(own, 'motor'));
  expect(question.answer).toBeUndefined();
  expect(new Set(question.candidates)).toEqual(new Set(['cover', 'camera', 'battery', 'bracket-screws']));
});

test('an answer that a blocked attempt disproves is said with that attempt', () => {
  expect(sightFaults('battery', [['cover']], battery)).toEqual([
    { kind: 'did-not-come', address: 'sessions/m1/entries/e3', missing: [] },
  ]);
  expect(sightFaults('battery', [], battery).map(({ kind }) => kind)).toEqual(['did-not-come']);
  expect(sightFaults('battery', [['cover', 'bracket-screws']], battery)).toEqual([]);
  expect(sightFaults('battery', undefined, battery)).toEqual([]);
});

test('an answer that names what was still on when the part came is said with what was still on', () => {
  const camera = shownOf(source, 'camera');
  expect(sightFaults('camera', [['cover', 'battery']], camera)).toEqual([
    { kind: 'came-with-less', address: 'sessions/m1/entries/e2', missing: ['battery'] },
  ]);
  expect(sightFaults('camera', [['battery', 'bracket-screws'], ['cover']], camera)).toEqual([]);
});

test('an answer is written as a whole list; a part only the log names gets its record with the role it was taken for', () => {
  expect(behindPatch(source, 'battery', [['cover'], ['camera']])).toEqual([
    { op: 'add', path: '/parts', value: {} },
    { op: 'add', path: '/parts/battery', value: { role: 'battery' } },
    { op: 'add', path: '/parts/battery/behind', value: [['cover'], ['camera']] },
  ]);
  const named = reviewSource({ ...base, parts: { cover: {} } } as Assessment);
  expect(behindPatch(named, 'cover', [])).toEqual([{ op: 'add', path: '/parts/cover/behind', value: [] }]);
});

test('a changed answer tests what stood there; "not known" takes it away; the same answer changes nothing', () => {
  const own = reviewSource({ ...base, parts: { cover: { behind: [] } } } as Assessment);
  const seen = { op: 'test', path: '/parts/cover/behind', value: [] };
  const path = '/parts/cover/behind';
  expect(behindPatch(own, 'cover', [['camera']])).toEqual([seen, { op: 'replace', path, value: [['camera']] }]);
  expect(behindPatch(own, 'cover', undefined)).toEqual([seen, { op: 'remove', path }]);
  expect(behindPatch(own, 'cover', [])).toBeUndefined();
  expect(behindPatch(source, 'cover', undefined)).toBeUndefined();
});

test('a fastener is asked with what was off when it let go, and its answer goes into its own record', () => {
  const own = reviewSource({
    ...base,
    parts: { battery: {} },
    fasteners: { 'bracket-screws': { kind: 'screw', between: ['battery', 'chassis'] } },
  } as Assessment);
  const question = sightQuestion('bracket-screws', own.device, shownOf(own, 'bracket-screws'));
  expect(question).toMatchObject({ candidates: ['cover', 'camera'], answer: [['cover']] });
  expect(question.from?.address).toBe('sessions/m1/entries/e5');
  expect(behindPatch(own, 'bracket-screws', [['cover']])).toEqual([
    { op: 'add', path: '/fasteners/bracket-screws/behind', value: [['cover']] },
  ]);
  expect(sightFaults('bracket-screws', [['battery']], shownOf(own, 'bracket-screws'))).toEqual([
    { kind: 'came-with-less', address: 'sessions/m1/entries/e5', missing: ['battery'] },
  ]);
  const [row] = fastenerRows(own);
  expect(row).toMatchObject({ holds: 'battery to chassis', kind: 'screw', isAnswered: false, isDescribed: true });
  expect(holdersOf('battery', own, fastenerRows(own)).map(({ fastener }) => fastener)).toEqual(['bracket-screws']);
});

test('a fastener only the log names is described before anything is asked of it', () => {
  expect(fastenerRows(source)[0]).toMatchObject({ fastener: 'bracket-screws', holds: 'not known', isDescribed: false });
  expect(() => behindPatch(source, 'bracket-screws', [])).toThrow(/not described/);
  expect(describePatch(base, 'bracket-screws', { kind: 'screw', between: ['battery', 'chassis'] })).toEqual([
    { op: 'add', path: '/fasteners', value: {} },
    { op: 'add', path: '/fasteners/bracket-screws', value: { kind: 'screw', between: ['battery', 'chassis'] } },
  ]);
  expect(describePatch(base, 'bracket-screws', { kind: 'screw', between: ['battery', 'battery'] })).toBeUndefined();
});

test('a fastener named at the bench whose ends nobody said is asked for them, and keeps what was said of it', () => {
  const screws = { name: 'bracket screws', kind: 'screw' as const, count: 3, drive: 'PH000' };
  const document: Assessment = { ...base, parts: { battery: {} }, fasteners: { 'bracket-screws': screws } };
  const [row] = fastenerRows(reviewSource(document));
  expect(row).toMatchObject({ holds: 'not known', isDescribed: false, isRecorded: true, isAnswered: false });
  const patch = describePatch(document, 'bracket-screws', { kind: 'screw', between: ['battery', 'chassis'] });
  const applied = applyPatch(document, patch ?? []);
  expect(applied.fits && applied.document.fasteners?.['bracket-screws']).toEqual({
    ...screws,
    between: ['battery', 'chassis'],
  });
});

test('a draft keeps its sets while another kind is looked at, and an empty way is not finished', () => {
  const draft = draftOf([['a'], ['b']]);
  expect(answerOf({ ...draft, kind: 'free' })).toEqual([]);
  expect(answerOf({ ...draft, kind: 'unknown' })).toBeUndefined();
  expect(answerOf(toggled(draft, { set: 1, thing: 'a' }, ['a', 'b']))).toEqual([['a'], ['a', 'b']]);
  expect(answerOf(toggled(draft, { set: 0, thing: 'a' }, ['a', 'b']))).toBe('unfinished');
});

test('suggested names nobody reviewed and marks without a name wait, in the order of their times', () => {
  expect(namesToConfirm(base, source.device).map(({ entry, kind }) => [entry, kind])).toEqual([
    ['e1', 'suggested'],
    ['e4', 'unnamed'],
    ['e6', 'suggested'],
  ]);
});

test('the joint nobody described of a part pulled off by itself is called after the part', () => {
  const pulled = { e1: { at: 10, do: 'pull', target: 'battery' } };
  const session = { kind: 'measured', specimen: 'a', start: '2026-11-25T10:00:00Z', startsAs: 'complete' };
  const own = reviewSource({ ...base, sessions: { m1: { ...session, entries: pulled } } } as unknown as Assessment);
  expect(fastenerRows(own).map(({ name }) => name)).toEqual(['joint of battery']);
});

test('an answer reads as names, long ones as a number', () => {
  expect(sightWords(source, undefined)).toBe('not known');
  expect(sightWords(source, [])).toBe('nothing: known free');
  expect(
    sightWords(source, [
      ['cover', 'bracket-screws'],
      ['a', 'b', 'c', 'd'],
    ]),
  ).toBe('cover and bracket screws, or 4 things');
});
