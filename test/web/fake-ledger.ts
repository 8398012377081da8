import type { Assessment } from '#record/schema/assessment';
import { applyPatch, meetingPlaces } from '#web/ledger/apply-patch';
import type { AssessmentDependencies } from '#web/ledger/assessment-dependencies';
import type { FollowHandlers } from '#web/ledger/follow-changes';
import type { Answer, Head } from '#web/ledger/ledger-client';
import type { Outbox, OutboxItem } from '#web/ledger/outbox';
import type { LedgerChange, QueuedChange, SyncEvent } from '#web/ledger/sync-state';

/** A server in memory with the rules of the ledger, whose line can be cut and whose answers can get lost. */
export class FakeLedger {
  document: Assessment;
  changes: LedgerChange[] = [];
  isAway = false;
  answersLost = 0;
  private readonly followers = new Set<FollowHandlers>();

  constructor(document: Assessment) {
    this.document = document;
  }

  get revision(): number {
    return this.changes.length + 1;
  }

  readonly readHead = async (): Promise<Head> => {
    this.reach();
    return { revision: this.revision, document: this.document };
  };

  readonly readChanges = async (_: string, since: number): Promise<readonly LedgerChange[]> => {
    this.reach();
    return this.since(since);
  };

  readonly sendChange = async (_: string, change: QueuedChange): Promise<Answer> => {
    this.reach();
    const answer = this.take(change);
    if (this.answersLost > 0) {
      this.answersLost -= 1;
      throw new Error('the answer got lost');
    }
    return answer;
  };

  readonly follow = (_: string, since: number, handlers: FollowHandlers): (() => void) => {
    if (this.isAway) {
      setTimeout(handlers.onEnd, 0);
      return () => undefined;
    }
    this.followers.add(handlers);
    setTimeout(() => {
      handlers.onOpen();
      for (const change of this.since(since)) handlers.onChange(change);
    }, 0);
    return () => this.followers.delete(handlers);
  };

  /** Takes a change as the ledger does: once, merged where nothing meets, refused where something does. */
  take({ change, base, patch }: QueuedChange): Answer {
    const before = this.changes.find((item) => item.change === change);
    if (before) return { status: 'taken', revision: before.revision };
    const since = this.since(base).flatMap((item) => item.patch);
    const met = meetingPlaces(patch, since);
    const applied = applyPatch(this.document, patch);
    if (met.length > 0 || !applied.fits) return { status: 'clash', why: 'met', clashes: met.map((path) => ({ path })) };
    this.document = applied.document;
    const stored = { change, patch, revision: this.revision + 1 };
    this.changes.push(stored);
    for (const { onChange } of [...this.followers]) setTimeout(() => onChange(stored), 0);
    return { status: 'taken', revision: stored.revision };
  }

  /** Cuts the line: nobody reaches the server, nobody follows it any more. */
  goAway(): void {
    this.isAway = true;
    for (const { onEnd } of this.followers) onEnd();
    this.followers.clear();
  }

  since(revision: number): readonly LedgerChange[] {
    return this.changes.filter((change) => change.revision > revision);
  }

  private reach(): void {
    if (this.isAway) throw new Error('The server does not answer.');
  }
}

/** An outbox in memory, as one browser keeps it for all its windows. */
export const memoryOutbox = (): Outbox & { readonly items: OutboxItem[] } => {
  const items: OutboxItem[] = [];
  const indexOf = (change: string) => items.findIndex(({ queued }) => queued.change === change);
  return {
    items,
    read: async () => [...items],
    waiting: async () => (items.some(({ home }) => !home) ? ['tarn-5'] : []),
    put: async (_, queued) => void items.push({ queued, home: false }),
    markHome: async (_, change) => {
      const at = indexOf(change);
      const item = items[at];
      if (item) items[at] = { ...item, home: true };
      if (items.every(({ home }) => home)) items.length = 0;
    },
    remove: async (_, change, by) => {
      if (indexOf(change) >= 0) items.splice(indexOf(change), 1);
      if (by) items.push({ queued: by, home: false });
    },
  };
};

/** One browser: the outbox and the line its windows share, of which one sends. */
export const fakeBrowser = (ledger: FakeLedger, outbox: Outbox, name: string): (() => AssessmentDependencies) => {
  const windows = new Set<(event: SyncEvent) => void>();
  const waiting: (() => void)[] = [];
  let sending = false;
  let made = 0;
  const next = () => {
    sending = false;
    waiting.shift()?.();
  };
  const openLine: AssessmentDependencies['openLine'] = (_, hear) => {
    const closing = new AbortController();
    windows.add(hear);
    return {
      say: (event) => {
        for (const window of windows) if (window !== hear) setTimeout(() => window(event), 0);
      },
      whenSender: (task) => {
        const begin = () => {
          if (closing.signal.aborted) return next();
          sending = true;
          void task(closing.signal).finally(next);
        };
        if (sending) waiting.push(begin);
        else begin();
      },
      close: () => {
        closing.abort();
        windows.delete(hear);
      },
    };
  };
  return () => ({
    readHead: ledger.readHead,
    readChanges: ledger.readChanges,
    sendChange: ledger.sendChange,
    follow: ledger.follow,
    outbox,
    openLine,
    newChangeKey: () => `${name}-${++made}`,
    wallTime: () => '2026-11-25T10:00:00.000+00:00',
    author: () => name,
    pause: () => new Promise((resolve) => setTimeout(resolve, 1)),
  });
};
