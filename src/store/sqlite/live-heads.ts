import type { Assessment } from '#record/schema/assessment';
import type { ChainState } from '../chain/follow-chain.ts';
import { type ShelfColumns, shelfColumns } from '../chain/shelf-entry.ts';
import { keepHead, loadHead } from './heads.ts';
import type { LedgerDatabase } from './tables.ts';

/** A present state in memory, and how far the copy on the disk is behind. */
export interface LiveHead {
  readonly state: ChainState;
  /** At least the bytes of the document; grows by every change until it is measured again. */
  readonly atMostBytes: number;
  readonly keptRevision: number;
  readonly shelf: ShelfColumns;
}

/** Documents kept in memory at once. */
const MOST = 16;
/** Changes after which a document is kept on the disk again: opening replays at most about as many. */
const KEEP_EVERY = 256;

/** Which documents are in memory? The ones used last; one that falls out is read from the disk again when it is needed. */
export class LiveHeads {
  private readonly heads = new Map<string, LiveHead>();
  private readonly database: LedgerDatabase;

  constructor(database: LedgerDatabase) {
    this.database = database;
  }

  /** The present state of an assessment. Throws kind `ledger` when its chain does not hold. */
  async get(assessment: string): Promise<LiveHead> {
    const known = this.heads.get(assessment);
    if (known) {
      this.heads.delete(assessment);
      this.heads.set(assessment, known);
      return known;
    }
    const { state, keptRevision } = await loadHead(this.database, assessment);
    // The size of a document just read is not known; it is measured when the first change comes near the limit.
    const shelf = shelfColumns(state.document as Assessment);
    return this.set(assessment, { state, atMostBytes: Number.POSITIVE_INFINITY, keptRevision, shelf });
  }

  /** Is it in memory? */
  has(assessment: string): boolean {
    return this.heads.has(assessment);
  }

  /** Remembers a new present state. */
  set(assessment: string, head: LiveHead): LiveHead {
    this.heads.delete(assessment);
    this.heads.set(assessment, head);
    for (const oldest of this.heads.keys()) {
      if (this.heads.size <= MOST) break;
      this.heads.delete(oldest);
    }
    return head;
  }

  /** Forgets one document, so that it is read from the disk again. */
  forget(assessment: string): void {
    this.heads.delete(assessment);
  }

  /** Forgets everything in memory. */
  clear(): void {
    this.heads.clear();
  }

  /** Keeps the documents on the disk that are far behind there, or with `all` every one that is behind. */
  async keep({ all }: { readonly all: boolean }): Promise<void> {
    for (const [assessment, head] of this.heads) {
      const behind = head.state.revision - head.keptRevision;
      if (behind < (all ? 1 : KEEP_EVERY)) continue;
      await keepHead(this.database, assessment, head.state);
      this.heads.set(assessment, { ...head, keptRevision: head.state.revision });
    }
  }
}
