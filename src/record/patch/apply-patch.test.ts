import { expect, test } from 'vitest';
import { applyPatch as applyInLedger } from '#store/patch/apply-patch';
import { applyPatch as applyOnPage } from '#web/ledger/apply-patch';
import { applyPatch } from './apply-patch.ts';
import { meetingPlaces } from './meeting-places.ts';

const document = { parts: { cover: { name: 'Cover', notes: ['one'] } } };

test.each([
  ['list', { op: 'add', path: '/parts/cover/notes/0', value: 'two' }],
  ['no-map', { op: 'add', path: '/parts/battery/name', value: 'Battery' }],
  ['absent', { op: 'remove', path: '/parts/battery' }],
  ['test', { op: 'test', path: '/parts/cover/name', value: 'Lid' }],
] as const)(
  'a patch that does not fit (%s) says so in the ledger and on the page alike, and changes nothing',
  (why, operation) => {
    const before = structuredClone(document);
    const applied = applyPatch(document, [{ op: 'add', path: '/parts/foil', value: {} }, operation]);
    expect(applied).toMatchObject({ fits: false, why, place: operation.path, index: 1 });
    const { faults, failedTests } = applyInLedger(document, [operation]);
    expect(faults.length + failedTests.length).toBe(1);
    expect(applyOnPage(document, [operation])).toMatchObject({ fits: false, path: operation.path });
    expect(document).toEqual(before);
  },
);

test('what is moved or copied counts at its source as well', () => {
  const theirs = [{ op: 'replace', path: '/parts/cover/name', value: 'Lid' }] as const;
  expect(meetingPlaces([{ op: 'copy', from: '/parts/cover', path: '/parts/lid' }], theirs)).toEqual([
    ['parts', 'cover'],
  ]);
  expect(meetingPlaces([{ op: 'move', from: '/parts/cover', path: '/parts/lid' }], theirs)).toEqual([
    ['parts', 'cover'],
  ]);
  expect(meetingPlaces([{ op: 'copy', from: '/parts/tray', path: '/parts/lid' }], theirs)).toEqual([]);
});
