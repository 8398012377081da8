import { mkdirSync, renameSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { describeError, type UnfastenError } from '#quantity/unfasten-error';
import { addEntry, changeOf, newAssessment, temporaryFolder } from '../../test/store-fixtures.ts';
import type { Ledger } from './ledger.ts';
import { openLedger } from './open-ledger.ts';
import { storeLimits } from './store-limits.ts';

const root = temporaryFolder('ledger');
afterAll(() => root.remove());

let folders = 0;
const nextFolder = (): string => join(root.path, `data-${folders++}`);

const withLedger = async <T>(work: (ledger: Ledger, folder: string) => Promise<T>): Promise<T> => {
  const folder = nextFolder();
  const { ledger } = await openLedger({ folder });
  try {
    await ledger.create(newAssessment());
    return await work(ledger, folder);
  } finally {
    await ledger.close();
  }
};

/** Which error does a promise end with? Fails when it does not end with one. */
const refusal = async (promise: Promise<unknown>): Promise<UnfastenError> => {
  try {
    await promise;
  } catch (error) {
    return error as UnfastenError;
  }
  throw new Error('It was not refused.');
};

const nameOfPart = (value: string) => ({ op: 'add', path: '/parts/cover/name', value }) as const;

test('a change is there after closing and opening again, and the chain holds', async () => {
  const folder = nextFolder();
  const first = await openLedger({ folder });
  await first.ledger.create(newAssessment());
  const acknowledged = await first.ledger.append(changeOf(1, [addEntry('e5', 400)]));
  await first.ledger.close();
  const second = await openLedger({ folder });
  const head = await second.ledger.head('tarn-5');
  expect([second.rebuilt, second.broken, head.revision, head.hash]).toEqual([[], [], 2, acknowledged.hash]);
  expect(head.document.sessions?.x1?.entries.e5).toEqual({ at: 400, do: 'pry', target: 'cover-glue' });
  expect(await second.ledger.verify()).toMatchObject({
    sound: true,
    assessments: 1,
    changes: 2,
    broken: [],
    damage: [],
  });
  await second.ledger.close();
});

test('the same change sent again is answered alike and stored once; another under its key is refused', () =>
  withLedger(async (ledger) => {
    const request = changeOf(1, [addEntry('e5', 400)]);
    const first = await ledger.append(request);
    expect(await ledger.append(request)).toEqual({ ...first, repeated: true });
    expect((await ledger.changes('tarn-5', 0)).map(({ revision }) => revision)).toEqual([1, 2]);
    expect((await refusal(ledger.append({ ...request, author: 'M. B.' }))).kind).toBe('change');
  }));

test('a change made against an older revision is merged when its places are free', () =>
  withLedger(async (ledger) => {
    await ledger.append(changeOf(1, [addEntry('e5', 400)]));
    const merged = await ledger.append(changeOf(1, [addEntry('e6', 410)]));
    expect([merged.revision, merged.merged]).toEqual([3, true]);
    const { document } = await ledger.head('tarn-5');
    expect(Object.keys(document.sessions?.x1?.entries ?? {})).toEqual(expect.arrayContaining(['e5', 'e6']));
    expect((await ledger.changes('tarn-5', 2)).map(({ base, revision }) => [base, revision])).toEqual([[1, 3]]);
  }));

test.each([
  ['the same place', '/parts/cover/name'],
  ['a place above', '/parts/cover'],
])('a change that meets %s comes back with both versions', (_, path) =>
  withLedger(async (ledger) => {
    await ledger.append(changeOf(1, [nameOfPart('Lid')]));
    const value = path.endsWith('name') ? 'Back glass' : { role: 'back-cover' };
    const error = await refusal(ledger.append(changeOf(1, [{ op: 'add', path, value }])));
    const head = path.endsWith('name') ? 'Lid' : expect.objectContaining({ name: 'Lid' });
    expect(error.details).toMatchObject({ headRevision: 2, clashes: [{ path, head, wanted: value }] });
    expect([error.kind, (await ledger.head('tarn-5')).revision]).toEqual(['conflict', 2]);
  }),
);

test('undo is a change of its own that restores the document, and undoing the undo restores it again', () =>
  withLedger(async (ledger) => {
    const before = (await ledger.head('tarn-5')).document;
    const change = [
      { op: 'replace', path: '/parts/cover/mass', value: '13 g' },
      { op: 'remove', path: '/parts/cell' },
      { op: 'move', from: '/notes/n1', path: '/notes/n2' },
      { op: 'copy', from: '/parts/board', path: '/parts/board-2' },
      addEntry('e5', 400),
    ] as const;
    await ledger.append(changeOf(1, change));
    const after = (await ledger.head('tarn-5')).document;
    const { patch: _patch, base: _base, ...head } = changeOf(2, change);
    await ledger.undo({ ...head, undoes: 2 });
    expect((await ledger.head('tarn-5')).document).toEqual(before);
    const { patch: _p, base: _b, ...again } = changeOf(3, change);
    expect(await ledger.undo({ ...again, undoes: 3 })).toMatchObject({ revision: 4, merged: false });
    expect((await ledger.head('tarn-5')).document).toEqual(after);
    expect((await ledger.changes('tarn-5', 2)).map(({ undoes }) => undoes)).toEqual([2, 3]);
  }));

test('undoing a change whose place was changed later is a conflict', () =>
  withLedger(async (ledger) => {
    await ledger.append(changeOf(1, [nameOfPart('Lid')]));
    await ledger.append(changeOf(2, [nameOfPart('Back glass')]));
    const { patch: _patch, base: _base, ...head } = changeOf(3, []);
    expect((await refusal(ledger.undo({ ...head, undoes: 2 }))).kind).toBe('conflict');
  }));

test('a test that does not hold is a conflict and changes nothing', () =>
  withLedger(async (ledger) => {
    const patch = [{ op: 'test', path: '/parts/cover/mass', value: '1 g' }, nameOfPart('Lid')] as const;
    const error = await refusal(ledger.append(changeOf(1, patch)));
    expect(error.details).toMatchObject({ clashes: [{ path: '/parts/cover/mass', base: '1 g', head: '12.5 g' }] });
    expect((await ledger.head('tarn-5')).revision).toBe(1);
  }));

test('a second ledger on the same folder is refused in a clear line, and taken once the first is closed', async () => {
  const folder = nextFolder();
  const { ledger } = await openLedger({ folder });
  const error = await refusal(openLedger({ folder }));
  expect(describeError(error)).toBe(
    `${join(folder, 'ledger.lock')}: Another unfasten is at work in this data folder (found ${JSON.stringify(folder)}). ` +
      'End it where it was started (Ctrl+C), or name another folder with --data.',
  );
  await ledger.close();
  await (await openLedger({ folder })).ledger.close();
});

test('many changes sent at once are taken one after the other, and closing waits for all of them', async () => {
  const folder = nextFolder();
  const { ledger } = await openLedger({ folder });
  await ledger.create(newAssessment());
  const sent = Array.from({ length: 200 }, (_, index) => ledger.append(changeOf(1, [addEntry(`m${index}`, index)])));
  const closing = ledger.close();
  const revisions = (await Promise.all(sent)).map(({ revision }) => revision);
  await closing;
  expect(revisions).toEqual(Array.from({ length: 200 }, (_, index) => index + 2));
  expect((await refusal(ledger.shelf())).message).toBe('The ledger is closed');
  const again = await openLedger({ folder });
  expect(again.rebuilt).toEqual([]);
  expect((await again.ledger.verify()).changes).toBe(201);
  await again.ledger.close();
});

test('changes go on while a backup is taken, and the copy holds a whole state', () =>
  withLedger(async (ledger, folder) => {
    for (let base = 1; base <= 40; base += 1)
      await ledger.append(changeOf(base, [{ op: 'add', path: `/notes/b${base}`, value: { text: 'x'.repeat(9_000) } }]));
    let isCopied = false;
    const copied = ledger.backup(join(folder, 'copy.sqlite')).then(() => {
      isCopied = true;
    });
    let during = 0;
    for (let base = 41; base <= 80; base += 1) {
      await ledger.append(changeOf(base, [addEntry(`d${base}`, base)]));
      if (!isCopied) during += 1;
    }
    await copied;
    expect(during).toBeGreaterThan(0);
    const place = nextFolder();
    mkdirSync(place);
    renameSync(join(folder, 'copy.sqlite'), join(place, 'ledger.sqlite'));
    const copy = await openLedger({ folder: place });
    const { sound, heads } = await copy.ledger.verify();
    await copy.ledger.close();
    expect([sound, (heads[0]?.revision ?? 0) >= 41]).toEqual([true, true]);
  }));

test('a change against a revision to come, an unknown assessment or revision is refused by name', () =>
  withLedger(async (ledger) => {
    const kinds = [
      ledger.append(changeOf(9, [addEntry('e5', 400)])),
      ledger.append(changeOf(1, [addEntry('e5', 400)], { assessment: 'nobody' })),
      ledger.head('nobody'),
      ledger.at('tarn-5', 2),
      ledger.at('tarn-5', 0),
      ledger.create(newAssessment()),
      ledger.create(newAssessment({ assessment: 'shapeless', document: { format: 'x' } })),
      ledger.append(changeOf(1, [{ op: 'add', path: '/parts/cover/mass', value: 5 }])),
    ].map(async (refused) => (await refusal(refused)).kind);
    expect(await Promise.all(kinds)).toEqual([
      'change',
      'not-in-ledger',
      'not-in-ledger',
      'not-in-ledger',
      'not-in-ledger',
      'change',
      'change',
      'change',
    ]);
  }));

test('a dangling reference and a contradiction are taken: a log in progress has them', () =>
  withLedger(async (ledger) => {
    const value = { at: 1, do: 'pull', target: 'nobody-described-it', corrects: 'nor-this' } as const;
    expect(await ledger.append(changeOf(1, [{ op: 'add', path: '/sessions/x1/entries/e9', value }]))).toMatchObject({
      revision: 2,
    });
  }));

test('a change of shape is refused with the words of the record and the place', () =>
  withLedger(async (ledger) => {
    const error = await refusal(ledger.append(changeOf(1, [{ op: 'add', path: '/parts/cover/mas', value: '5 g' }])));
    expect(error.details).toMatchObject({
      faults: [{ path: 'parts/cover/mas', message: 'there is no field "mas" here', remedy: 'Did you mean "mass"?' }],
    });
  }));

test('the document as it stood at any revision, and the changes page by page', () =>
  withLedger(async (ledger) => {
    for (let base = 1; base <= 5; base += 1) await ledger.append(changeOf(base, [addEntry(`p${base}`, base)]));
    const counts = await Promise.all(
      [1, 2, 6].map(async (revision) => {
        const { document } = await ledger.at('tarn-5', revision);
        return Object.keys(document.sessions?.x1?.entries ?? {}).length;
      }),
    );
    expect(counts).toEqual([4, 5, 9]);
    expect((await ledger.changes('tarn-5', 2, 3)).map(({ revision }) => revision)).toEqual([3, 4, 5]);
  }));

test('the largest change a client may send can be undone, though its inverse has twice the operations', () =>
  withLedger(async (ledger) => {
    const before = (await ledger.head('tarn-5')).document;
    const patch = Array.from({ length: storeLimits.operationsPerChange }, (_, index) => addEntry(`u${index}`, index));
    await ledger.append(changeOf(1, patch));
    const { patch: _patch, base: _base, ...head } = changeOf(2, []);
    const undone = await ledger.undo({ ...head, undoes: 2 });
    expect(await ledger.undo({ ...head, undoes: 2 })).toEqual({ ...undone, repeated: true });
    expect((await ledger.head('tarn-5')).document).toEqual(before);
    expect((await refusal(ledger.undo({ ...head, change: changeOf(3, []).change, undoes: 1 }))).kind).toBe('change');
    expect((await refusal(ledger.undo({ ...head, change: changeOf(3, []).change, undoes: 9 }))).kind).toBe(
      'not-in-ledger',
    );
  }));
