import type { FollowHandlers } from './follow-changes.ts';
import type { Answer, Head } from './ledger-client.ts';
import type { Outbox } from './outbox.ts';
import type { LedgerChange, QueuedChange, SyncEvent } from './sync-state.ts';
import type { TabLine } from './tab-line.ts';

/** Everything outside the page that an open assessment works with. */
export interface AssessmentDependencies {
  readonly readHead: (assessment: string) => Promise<Head>;
  readonly readChanges: (assessment: string, since: number) => Promise<readonly LedgerChange[]>;
  readonly sendChange: (assessment: string, change: QueuedChange) => Promise<Answer>;
  readonly follow: (assessment: string, since: number, handlers: FollowHandlers) => () => void;
  readonly outbox: Outbox;
  readonly openLine: (assessment: string, hear: (event: SyncEvent) => void) => TabLine;
  readonly newChangeKey: () => string;
  readonly wallTime: () => string;
  readonly author: () => string;
  /** Waits [ms], or less when there is a reason to try again at once. */
  readonly pause: (milliseconds: number) => Promise<void>;
}
