import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { share } from '../../../test/share.ts';
import { applyPatch, meetingPlaces } from './apply-patch.ts';
import { keepMinePatch } from './keep-mine.ts';
import {
  afterEvent,
  type LedgerChange,
  nextToSend,
  openedState,
  type QueuedChange,
  recoveredState,
  type SyncState,
  unsentCount,
} from './sync-state.ts';

const start = {
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn 5' },
  parts: {},
  notes: {},
} as Assessment;

const queuedChange = (change: string, patch: Patch, base = 1): QueuedChange => ({
  change,
  base,
  patch,
  author: 'M.',
  at: '2026-11-25T10:00:00+00:00',
});

/** A server with the rules of the ledger: idempotent by change, merging what does not meet, refusing what does. */
class FakeServer {
  document = start;
  changes: LedgerChange[] = [];

  get revision(): number {
    return this.changes.length + 1;
  }

  take({ change, base, patch }: QueuedChange): number | 'clash' {
    const before = this.changes.find((item) => item.change === change);
    if (before) return before.revision;
    const since = this.changes.filter(({ revision }) => revision > base).flatMap((item) => item.patch);
    const applied = applyPatch(this.document, patch);
    if (meetingPlaces(patch, since).length > 0 || !applied.fits) return 'clash';
    this.document = applied.document;
    this.changes.push({ change, patch, revision: this.revision + 1 });
    return this.revision;
  }

  since(revision: number): LedgerChange[] {
    return this.changes.filter((change) => change.revision > revision);
  }
}

/** One browser: its state, its outbox on disk, and the order in which it made its changes. */
class FakeBrowser {
  state: SyncState;
  outbox: { queued: QueuedChange; home: boolean }[] = [];
  made: string[] = [];
  bases = new Map<string, number>();
  private readonly name: string;
  private readonly server: FakeServer;

  constructor(name: string, server: FakeServer) {
    this.name = name;
    this.server = server;
    this.state = openedState(server);
  }

  make(patch: Patch): void {
    const change = queuedChange(`${this.name}${this.made.length}`, patch, this.state.revision);
    this.made.push(change.change);
    this.bases.set(change.change, change.base);
    this.outbox.push({ queued: change, home: false });
    this.state = afterEvent(this.state, { type: 'queued', queued: change });
  }

  send(answerIsLost: boolean): void {
    const next = nextToSend(this.state);
    if (!next) return;
    const answer = this.server.take(next);
    if (answerIsLost) return;
    if (answer === 'clash') {
      this.state = afterEvent(this.state, { type: 'conflicted', change: next.change, clashes: [], why: 'met' });
      return;
    }
    for (const item of this.outbox) if (item.queued.change === next.change) item.home = true;
    this.state = afterEvent(this.state, { type: 'acknowledged', change: next.change, revision: answer });
  }

  hear(most: number): void {
    const changes = this.server.since(this.state.revision).slice(0, most);
    this.state = afterEvent(this.state, { type: 'arrived', changes });
  }

  comeBack(): void {
    const waiting = this.outbox.map(({ queued }) => queued.base);
    const since = this.server.since(Math.min(this.server.revision, ...waiting));
    this.state = recoveredState({ head: this.server, outbox: this.outbox, since });
  }

  settle(): void {
    for (let round = 0; round < 200 && (unsentCount(this.state) > 0 || this.state.behind); round++) {
      this.hear(1000);
      this.send(false);
    }
    this.hear(1000);
  }
}

const places = ['a', 'b', 'c'];
const patchOf = (kind: number, place: string, serial: number): Patch => {
  if (kind === 0) return [{ op: 'add', path: `/notes/n-${place}-${serial}`, value: { text: `note ${serial}` } }];
  if (kind === 1) return [{ op: 'add', path: `/parts/${place}`, value: { name: `${place} ${serial}` } }];
  return [{ op: 'add', path: `/parts/${place}/mass`, value: `${serial} g` }];
};

const act = fc.record({
  browser: fc.nat({ max: 1 }),
  what: fc.constantFrom('make', 'make', 'make', 'send', 'lose', 'hear', 'come-back'),
  kind: fc.nat({ max: 2 }),
  place: fc.constantFrom(...places),
  most: fc.integer({ min: 1, max: 4 }),
});

test('every change ends in the ledger exactly once and in order, or waits as a conflict, and both browsers converge', () => {
  fc.assert(
    fc.property(fc.array(act, { maxLength: 60 }), (acts) => {
      const server = new FakeServer();
      const browsers = [new FakeBrowser('x', server), new FakeBrowser('y', server)];
      acts.forEach(({ browser, what, kind, place, most }, serial) => {
        const acting = browsers[browser] as FakeBrowser;
        if (what === 'make') acting.make(patchOf(kind, place, serial));
        else if (what === 'send' || what === 'lose') acting.send(what === 'lose');
        else if (what === 'hear') acting.hear(most);
        else acting.comeBack();
      });
      // Twice: what the second sends last, the first has yet to hear.
      for (const browser of [...browsers, ...browsers]) browser.settle();
      const stored = server.changes.map(({ change }) => change);
      expect(new Set(stored).size).toBe(stored.length);
      for (const { made, bases, state } of browsers) {
        const waiting = new Set(state.conflicts.map(({ queued }) => queued.change));
        const own = stored.filter((change) => made.includes(change));
        expect(made.filter((change) => !waiting.has(change))).toEqual(own);
        expect(own.filter((change) => waiting.has(change))).toEqual([]);
        expect(state.document).toEqual(server.document);
        // Nobody writes over what they had not seen when they made their change.
        for (const { change, patch, revision } of server.changes.filter((stored) => made.includes(stored.change))) {
          const unseen = server.since(bases.get(change) ?? 0).filter((item) => item.revision < revision);
          const theirs = unseen.filter((item) => !made.includes(item.change)).flatMap((item) => item.patch);
          expect(meetingPlaces(patch, theirs)).toEqual([]);
        }
        expect(state.queue).toEqual([]);
      }
    }),
    { numRuns: share(500, 20_000), seed: 20_261_125 },
  );
});

test('what was set aside before a later change went home goes on waiting after the page was closed', () => {
  const early = queuedChange('early', [{ op: 'add', path: '/parts/a/mass', value: '1 g' }]);
  const late = queuedChange('late', [{ op: 'add', path: '/parts/a', value: { name: 'a' } }]);
  const outbox = [early, late].map((queued) => ({ queued, home: false }));
  const since = [{ change: 'late', revision: 2, patch: late.patch }];
  const document = { ...start, parts: { a: { name: 'a' } } } as Assessment;
  const state = recoveredState({ head: { revision: 2, document }, outbox, since });
  expect([state.queue, state.conflicts.map(({ queued }) => queued.change)]).toEqual([[], ['early']]);
});

test('a change of our own that comes home in its turn leaves the document the very same object', () => {
  const queued = queuedChange('one', [{ op: 'add', path: '/parts/battery', value: { name: 'battery' } }]);
  const before = afterEvent(openedState({ revision: 1, document: start }), { type: 'queued', queued });
  const after = afterEvent(before, { type: 'acknowledged', change: 'one', revision: 2 });
  expect(after.document).toBe(before.document);
  expect([after.revision, after.queue.length]).toEqual([2, 0]);
});

test('another change to the same place is set aside with all three versions, and mine can be made to hold', () => {
  const mine = queuedChange('mine', [
    { op: 'test', path: '/product/name', value: 'Tarn 5' },
    { op: 'replace', path: '/product/name', value: 'Tarn 5 S' },
  ]);
  const theirs: Patch = [{ op: 'replace', path: '/product/name', value: 'Tarn 5 B' }];
  const queued = afterEvent(openedState({ revision: 1, document: start }), { type: 'queued', queued: mine });
  const met = afterEvent(queued, { type: 'arrived', changes: [{ change: 'theirs', revision: 2, patch: theirs }] });
  expect(met.document.product.name).toBe('Tarn 5 B');
  expect(met.conflicts.map(({ clashes }) => clashes)).toEqual([
    [{ path: '/product/name', base: 'Tarn 5', head: 'Tarn 5 B', wanted: 'Tarn 5 S' }],
  ]);
  const patch = keepMinePatch(met.document, mine.patch) ?? [];
  const kept = afterEvent(met, { type: 'replaced', change: 'mine', by: queuedChange('again', patch, 2) });
  expect([kept.document.product.name, kept.conflicts.length, kept.queue.length]).toEqual(['Tarn 5 S', 0, 1]);
  const dropped = afterEvent(met, { type: 'dropped', change: 'mine' });
  expect([dropped.document.product.name, dropped.conflicts.length]).toEqual(['Tarn 5 B', 0]);
});

test('a revision that was missed stops the sending until it has arrived', () => {
  const queued = queuedChange('one', [{ op: 'add', path: '/notes/n', value: { text: 'n' } }]);
  const state = afterEvent(openedState({ revision: 1, document: start }), { type: 'queued', queued });
  const ahead = afterEvent(state, { type: 'acknowledged', change: 'one', revision: 3 });
  expect([ahead.behind, nextToSend(ahead), unsentCount(ahead)]).toEqual([true, undefined, 0]);
  const caught = afterEvent(ahead, {
    type: 'arrived',
    changes: [
      { change: 'theirs', revision: 2, patch: [{ op: 'add', path: '/notes/m', value: { text: 'm' } }] },
      { change: 'one', revision: 3, patch: queued.patch },
    ],
  });
  expect([caught.behind, caught.revision, Object.keys(caught.document.notes ?? {})]).toEqual([false, 3, ['m', 'n']]);
});
