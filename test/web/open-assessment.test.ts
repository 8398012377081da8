import { expect, test, vi } from 'vitest';
import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { openAssessment } from '#web/ledger/open-assessment';
import { FakeLedger, fakeBrowser, memoryOutbox } from './fake-ledger.ts';

const start = { format: 'unfasten/assessment', version: 1, product: { name: 'Tarn 5' }, notes: {} } as Assessment;
const note = (name: string): Patch => [{ op: 'add', path: `/notes/${name}`, value: { text: name } }];
const until = (condition: () => boolean) => vi.waitFor(() => expect(condition()).toBe(true), { timeout: 5000 });

test('a change is seen at once, kept before it is sent, and cleared from the outbox when it is home', async () => {
  const ledger = new FakeLedger(start);
  const outbox = memoryOutbox();
  const open = await openAssessment('tarn-5', fakeBrowser(ledger, outbox, 'M.')());
  const kept = open.change(note('one'));
  expect(Object.keys(open.snapshot().document.notes ?? {})).toEqual(['one']);
  expect([open.snapshot().pending, ledger.changes.length]).toEqual([1, 0]);
  await kept;
  await until(() => open.snapshot().pending === 0 && open.snapshot().link === 'live');
  expect([ledger.changes.length, outbox.items.length, open.snapshot().revision]).toEqual([1, 0, 2]);
  open.close();
});

test('without the server logging goes on, and all goes up once and in order when it is back', async () => {
  const ledger = new FakeLedger(start);
  const outbox = memoryOutbox();
  const open = await openAssessment('tarn-5', fakeBrowser(ledger, outbox, 'M.')());
  ledger.goAway();
  const names = Array.from({ length: 40 }, (_, index) => `n-${index}`);
  for (const name of names) await open.change(note(name));
  await until(() => open.snapshot().link === 'offline');
  expect([open.snapshot().pending, outbox.items.length, ledger.changes.length]).toEqual([40, 40, 0]);
  expect(Object.keys(open.snapshot().document.notes ?? {})).toEqual(names);
  ledger.answersLost = 3;
  ledger.isAway = false;
  await until(() => open.snapshot().pending === 0 && outbox.items.length === 0);
  expect(Object.keys(ledger.document.notes ?? {})).toEqual(names);
  expect([ledger.changes.length, ledger.answersLost, outbox.items.length]).toEqual([40, 0, 0]);
  open.close();
});

test('what a closed window left in the outbox goes up once from the next', async () => {
  const ledger = new FakeLedger(start);
  const outbox = memoryOutbox();
  const first = await openAssessment('tarn-5', fakeBrowser(ledger, outbox, 'M.')());
  await first.change(note('home'));
  await until(() => first.snapshot().pending === 0);
  ledger.goAway();
  await first.change(note('one'));
  await first.change([{ op: 'add', path: '/notes/one/by', value: 'M.' }]);
  first.close();
  ledger.isAway = false;
  const second = await openAssessment('tarn-5', fakeBrowser(ledger, outbox, 'N.')());
  await until(() => second.snapshot().pending === 0);
  expect(ledger.document.notes).toEqual({ home: { text: 'home' }, one: { text: 'one', by: 'M.' } });
  expect([ledger.changes.length, second.snapshot().conflicts.length]).toEqual([3, 0]);
  second.close();
});

test('two windows of one browser show each other at once, and one of them sends', async () => {
  const ledger = new FakeLedger(start);
  const windowOf = fakeBrowser(ledger, memoryOutbox(), 'M.');
  const [a, b] = await Promise.all([openAssessment('tarn-5', windowOf()), openAssessment('tarn-5', windowOf())]);
  ledger.goAway();
  await a.change(note('a'));
  await until(() => b.snapshot().pending === 1);
  await b.change(note('b'));
  await until(() => Object.keys(a.snapshot().document.notes ?? {}).length === 2);
  expect(Object.keys(b.snapshot().document.notes ?? {})).toEqual(['a', 'b']);
  a.close();
  ledger.isAway = false;
  await until(() => b.snapshot().pending === 0);
  expect(ledger.changes.map(({ change }) => change)).toEqual(['M.-1', 'M.-2']);
  b.close();
});

test('two browsers at one place: the second keeps both versions, and its own can be made to hold', async () => {
  const ledger = new FakeLedger(start);
  const a = await openAssessment('tarn-5', fakeBrowser(ledger, memoryOutbox(), 'A')());
  const outbox = memoryOutbox();
  const b = await openAssessment('tarn-5', fakeBrowser(ledger, outbox, 'B')());
  const rename = (name: string): Patch => [{ op: 'replace', path: '/product/name', value: name }];
  await until(() => b.snapshot().link === 'live');
  ledger.goAway();
  await b.change(rename('Tarn 5 B'));
  await b.change(note('b'));
  ledger.isAway = false;
  await a.change(rename('Tarn 5 A'));
  await until(() => b.snapshot().conflicts.length === 1 && b.snapshot().pending === 0 && a.snapshot().pending === 0);
  expect(b.snapshot().document.product.name).toBe(ledger.document.product.name);
  expect(Object.keys(ledger.document.notes ?? {})).toEqual(['b']);
  const [conflict] = b.snapshot().conflicts;
  if (!conflict) throw new Error('There is no conflict.');
  expect(await b.resolve(conflict, 'keep-mine')).toBe(true);
  await until(() => a.snapshot().document.product.name === 'Tarn 5 B');
  expect([outbox.items.length, b.snapshot().conflicts.length]).toEqual([0, 0]);
  a.close();
  b.close();
});

test('where the browser keeps nothing the change is sent all the same, and the snapshot says so until it is', async () => {
  const ledger = new FakeLedger(start);
  const full = { ...memoryOutbox(), put: () => Promise.reject(new Error('the disk is full')) };
  const open = await openAssessment('tarn-5', fakeBrowser(ledger, full, 'M.')());
  ledger.goAway();
  await open.change(note('one'));
  expect([open.snapshot().unkept, open.snapshot().pending]).toEqual([true, 1]);
  ledger.isAway = false;
  await until(() => open.snapshot().pending === 0);
  expect(ledger.changes.length).toBe(1);
  open.close();
});
