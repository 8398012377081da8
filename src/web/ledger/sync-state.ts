import { keysOf, valueAt } from '#record/patch/json-pointer';
import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { applyPatch, meetingPlaces } from './apply-patch.ts';

/** A change of this browser, as it lies in the outbox until the server has it on disk. */
export interface QueuedChange {
  /** UUID: however often it is sent, the ledger stores it once. */
  readonly change: string;
  /** The revision it was made against, or brought up to since. */
  readonly base: number;
  readonly patch: Patch;
  readonly author: string;
  /** Wall time, RFC 3339 with offset. */
  readonly at: string;
  readonly note?: string;
}

/** A change as the ledger tells of it, so far as the page needs it. */
export interface LedgerChange {
  readonly change: string;
  readonly revision: number;
  readonly patch: Patch;
}

/** Both versions of one place. */
export interface Clash {
  readonly path: string;
  readonly base?: unknown;
  readonly head?: unknown;
  readonly wanted?: unknown;
}

/** A change that could not be taken and waits for a decision; `refused` when the record's rules forbid it. */
export interface Conflict {
  readonly queued: QueuedChange;
  readonly kind: 'clash' | 'refused';
  readonly why: string;
  readonly clashes: readonly Clash[];
}

/** What one page knows of one assessment. */
export interface SyncState {
  /** The last revision the server told of, with its document. */
  readonly revision: number;
  readonly confirmed: Assessment;
  /** Not in `confirmed` yet, in the order in which they were made; some may be acknowledged already. */
  readonly queue: readonly QueuedChange[];
  readonly acknowledged: ReadonlyMap<string, number>;
  readonly conflicts: readonly Conflict[];
  /** `confirmed` with the queue applied: what the screens show. */
  readonly document: Assessment;
  /** True where a revision was missed: nothing is sent until the page has caught up. */
  readonly behind: boolean;
}

/** What can happen to a page. */
export type SyncEvent =
  | { readonly type: 'queued'; readonly queued: QueuedChange }
  | { readonly type: 'acknowledged'; readonly change: string; readonly revision: number }
  | { readonly type: 'arrived'; readonly changes: readonly LedgerChange[] }
  | { readonly type: 'conflicted'; readonly change: string; readonly clashes: readonly Clash[]; readonly why: string }
  | { readonly type: 'refused'; readonly change: string; readonly why: string; readonly clashes?: readonly Clash[] }
  | { readonly type: 'dropped'; readonly change: string }
  | { readonly type: 'replaced'; readonly change: string; readonly by: QueuedChange };

/** What does a page know at first? The head as read, and nothing of its own. */
export const openedState = (head: { readonly revision: number; readonly document: Assessment }): SyncState => ({
  revision: head.revision,
  confirmed: head.document,
  document: head.document,
  queue: [],
  acknowledged: new Map(),
  conflicts: [],
  behind: false,
});

/** What a page finds when it opens an assessment with changes of its own left in the outbox. */
export interface Leftover {
  readonly head: { readonly revision: number; readonly document: Assessment };
  /** What lies in the outbox, in its order; `home` once the ledger has acknowledged it. */
  readonly outbox: readonly { readonly queued: QueuedChange; readonly home: boolean }[];
  /** All changes of the ledger after the smallest base in the outbox, up to the head. */
  readonly since: readonly LedgerChange[];
}

/** What does a page know that comes back? What went home is left out, what met another's change waits for a decision. */
export const recoveredState = ({ head, outbox, since }: Leftover): SyncState => {
  const own = new Set(outbox.map(({ queued: item }) => item.change));
  const stored = new Set(since.map(({ change }) => change));
  let state = openedState(head);
  const isHome = ({ queued: item, home }: Leftover['outbox'][number]): boolean => home || stored.has(item.change);
  const lastHome = outbox.findLastIndex(isHome);
  for (const [index, left] of outbox.entries()) {
    const { queued: item } = left;
    if (isHome(left)) continue;
    // Changes are sent in their order: one that was passed over had been set aside, and goes on waiting for a decision.
    if (index < lastHome) {
      state = { ...state, conflicts: [...state.conflicts, passedOver(item, head.document)] };
      continue;
    }
    const theirs = since.filter(({ revision, change }) => revision > item.base && !own.has(change));
    const met = meetingPlaces(
      item.patch,
      theirs.flatMap(({ patch }) => patch),
    );
    if (met.length === 0) state = queued(state, item);
    else {
      const clashes = met.map((path) => ({
        path,
        head: valueAt(head.document, keysOf(path)),
        wanted: wantedAt(item.patch, path),
      }));
      const why = 'Another changed this place while this page was closed.';
      state = { ...state, conflicts: [...state.conflicts, { queued: item, kind: 'clash', why, clashes }] };
    }
  }
  return state;
};

const passedOver = (item: QueuedChange, document: Assessment): Conflict => ({
  queued: item,
  kind: 'clash',
  why: 'It waited for a decision when this page was closed.',
  clashes: item.patch
    .filter(({ op }) => op !== 'test')
    .map(({ path }) => ({ path, head: valueAt(document, keysOf(path)), wanted: wantedAt(item.patch, path) })),
});

/** What does a page know after an event? Pure: the same events in the same order, the same state. */
export const afterEvent = (state: SyncState, event: SyncEvent): SyncState => {
  switch (event.type) {
    case 'queued':
      return queued(state, event.queued);
    case 'acknowledged':
      return acknowledged(state, event.change, event.revision);
    case 'arrived':
      return event.changes.reduce(arrived, state);
    case 'conflicted':
      return setAside(state, event.change, { kind: 'clash', why: event.why, clashes: event.clashes });
    case 'refused':
      return setAside(state, event.change, { kind: 'refused', why: event.why, clashes: event.clashes ?? [] });
    case 'dropped':
      return rebuilt(without(state, event.change));
    case 'replaced':
      return queued(without(state, event.change), event.by);
  }
};

/** Which change may be sent now? The first that is not on its way home, made good against the confirmed revision. */
export const nextToSend = (state: SyncState): QueuedChange | undefined => {
  if (state.behind || state.acknowledged.size > 0) return undefined;
  const [first] = state.queue;
  return first && { ...first, base: state.revision };
};

/** How many changes does the server not have yet? */
export const unsentCount = ({ queue, acknowledged }: SyncState): number => queue.length - acknowledged.size;

const queued = (state: SyncState, change: QueuedChange): SyncState => {
  if (isKnown(state, change.change)) return state;
  const dependsOn = state.conflicts.find(({ queued: held }) => meetingPlaces(change.patch, held.patch).length > 0);
  const applied = applyPatch(state.document, change.patch);
  if (!applied.fits) {
    const base = dependsOn ? 'It builds on a change that waits for a decision.' : applied.why;
    return { ...state, conflicts: [...state.conflicts, conflictOf(state, change, { path: applied.path, why: base })] };
  }
  return { ...state, queue: [...state.queue, change], document: applied.document };
};

const isKnown = ({ queue, conflicts }: SyncState, change: string): boolean =>
  queue.some((item) => item.change === change) || conflicts.some(({ queued: item }) => item.change === change);

/** Home at once when nothing came between; otherwise it waits until what came between has arrived. */
const acknowledged = (state: SyncState, change: string, revision: number): SyncState => {
  const own = state.queue.find((item) => item.change === change);
  if (!own || revision <= state.revision) return own ? rebuilt(without(state, change)) : state;
  if (revision === state.revision + 1) return arrived(state, { change, revision, patch: own.patch });
  return { ...state, acknowledged: new Map(state.acknowledged).set(change, revision), behind: true };
};

const arrived = (state: SyncState, { change, revision, patch }: LedgerChange): SyncState => {
  if (revision <= state.revision) return state;
  if (revision > state.revision + 1) return { ...state, behind: true };
  const applied = applyPatch(state.confirmed, patch);
  if (!applied.fits) return { ...state, behind: true };
  const isFirstOwn = state.queue[0]?.change === change;
  const settled = without({ ...state, revision, confirmed: applied.document }, change);
  const next = { ...settled, behind: settled.acknowledged.size > 0 };
  // The screens already show a change of our own in its turn: the document stays the very same object.
  return isFirstOwn ? next : rebuilt(metBy(next, { patch, before: state.confirmed }));
};

/** Sets aside what another's change met; the rest is good against the new revision. */
const metBy = (state: SyncState, theirs: { readonly patch: Patch; readonly before: Assessment }): SyncState => {
  let next = state;
  for (const change of state.queue) {
    // What the ledger has acknowledged was judged there.
    if (state.acknowledged.has(change.change)) continue;
    const met = meetingPlaces(change.patch, theirs.patch);
    if (met.length === 0) continue;
    const clashes = met.map((path) => ({
      path,
      base: valueAt(theirs.before, keysOf(path)),
      head: valueAt(state.confirmed, keysOf(path)),
      wanted: valueAt(state.document, keysOf(path)),
    }));
    const why = 'Another changed this place in the meantime.';
    next = {
      ...next,
      queue: next.queue.filter((item) => item !== change),
      conflicts: [...next.conflicts, { queued: change, kind: 'clash', why, clashes }],
    };
  }
  return next;
};

const setAside = (state: SyncState, change: string, how: Omit<Conflict, 'queued'>): SyncState => {
  const own = state.queue.find((item) => item.change === change);
  if (!own) return state;
  const rest = without(state, change);
  return rebuilt({ ...rest, conflicts: [...rest.conflicts, { ...how, queued: own }] });
};

const without = (state: SyncState, change: string): SyncState => {
  const acknowledged = new Map(state.acknowledged);
  acknowledged.delete(change);
  return {
    ...state,
    acknowledged,
    queue: state.queue.filter((item) => item.change !== change),
    conflicts: state.conflicts.filter(({ queued: item }) => item.change !== change),
  };
};

/** The document anew from what is confirmed; what no longer fits is set aside with its reason. */
const rebuilt = (state: SyncState): SyncState => {
  let document = state.confirmed;
  const queue: QueuedChange[] = [];
  const conflicts = [...state.conflicts];
  for (const change of state.queue) {
    const applied = applyPatch(document, change.patch);
    if (applied.fits) {
      document = applied.document;
      queue.push(change);
    } else if (state.acknowledged.has(change.change)) {
      // The ledger holds it; it will be seen when it arrives.
      queue.push(change);
    } else conflicts.push(conflictOf({ ...state, document }, change, applied));
  }
  return { ...state, document, queue, conflicts };
};

const conflictOf = (
  { document }: Pick<SyncState, 'document'>,
  change: QueuedChange,
  { path, why }: { readonly path: string; readonly why: string },
): Conflict => ({
  queued: change,
  kind: 'clash',
  why,
  clashes: [{ path, head: valueAt(document, keysOf(path)), wanted: wantedAt(change.patch, path) }],
});

const wantedAt = (patch: Patch, path: string): unknown => {
  const writing = patch.find((operation) => operation.path === path && 'value' in operation && operation.op !== 'test');
  return writing && 'value' in writing ? writing.value : undefined;
};
