import { UnfastenError } from '#quantity/unfasten-error';
import type { Assessment } from '#record/schema/assessment';
import { canonicalJson } from '../canonical-json.ts';
import { changeHash } from '../chain/change-hash.ts';
import { type ChainState, emptyChain } from '../chain/follow-chain.ts';
import { type ShelfColumns, shelfAfter, shelfColumns } from '../chain/shelf-entry.ts';
import type { Acknowledgement, ChangeRequest, NewAssessment, SourceFile, SourceNote, StoredChange } from '../ledger.ts';
import type { FirstChange } from '../patch/first-change.ts';
import { faultAt, refuseChange } from '../patch/patch-faults.ts';
import { settleChange, unknownBase } from '../patch/settle-change.ts';
import { keepHead } from './heads.ts';
import type { LiveHeads } from './live-heads.ts';
import { followChain, readChanges } from './read-chain.ts';
import { changeOfRow, rowOfChange } from './stored-rows.ts';
import type { LedgerDatabase } from './tables.ts';

/** What a change is linked with besides its request. */
interface Link {
  readonly undoes?: number;
  readonly source?: SourceNote;
}

/** Adds links to chains, one at a time. */
export class ChainWriter {
  private readonly database: LedgerDatabase;
  private readonly heads: LiveHeads;
  private readonly receivedAt: () => string;

  constructor(database: LedgerDatabase, heads: LiveHeads, receivedAt: () => string) {
    this.database = database;
    this.heads = heads;
    this.receivedAt = receivedAt;
  }

  /** Stores the first change of an assessment. */
  async begin(request: NewAssessment, first: FirstChange): Promise<Acknowledgement> {
    const asked = { ...request, base: 0, patch: first.patch };
    const repeated = await this.repeated(asked);
    if (repeated) return repeated;
    if (await isKnown(this.database, request.assessment)) throw taken(request.assessment);
    const stored = this.linked(asked, emptyChain, first.source ? { source: first.source } : {});
    const state: ChainState = { revision: 1, hash: stored.hash, document: first.document };
    await this.writeFirst(stored, state, request.source);
    const shelf = shelfColumns(state.document as Assessment);
    this.heads.set(request.assessment, { state, atMostBytes: Number.POSITIVE_INFINITY, keptRevision: 1, shelf });
    return acknowledge(stored, false);
  }

  /** Stores a change whose patch was read already; `patchBytes` is its size. */
  async take(request: ChangeRequest, patchBytes: number, undoes?: number): Promise<Acknowledgement> {
    const live = await this.heads.get(request.assessment);
    const repeated = await this.repeated(request, undoes);
    if (repeated) return repeated;
    const { state } = live;
    if (request.base > state.revision) throw unknownBase(request, state.revision);
    const settled = await settleChange(request, patchBytes, {
      head: state,
      atMostBytes: live.atMostBytes,
      since: await this.since(request, state.revision),
      baseDocument: async () => (await stateAt(this.database, request.assessment, request.base)).document,
    });
    const stored = this.linked(request, state, undoes === undefined ? {} : { undoes });
    const shelf = shelfAfter(live.shelf, settled.document as Assessment, request.patch);
    await this.writeNext(stored, shelf).catch((error: unknown) => {
      // Whatever is on the disk now holds: it is read again before the next change.
      this.heads.forget(request.assessment);
      throw error;
    });
    const next = { revision: stored.revision, hash: stored.hash, document: settled.document };
    this.heads.set(request.assessment, { ...live, state: next, atMostBytes: settled.atMostBytes, shelf });
    return acknowledge(stored, false);
  }

  /** The acknowledgement given before, when this very change is stored. Throws kind `change` when its key is another's. */
  private async repeated(request: ChangeRequest, undoes?: number): Promise<Acknowledgement | undefined> {
    const row = await this.database
      .selectFrom('changes')
      .selectAll()
      .where('assessment', '=', request.assessment)
      .where('change', '=', request.change)
      .executeTakeFirst();
    if (row === undefined) return undefined;
    const stored = changeOfRow(row);
    const [before, now] = [stored, { ...request, undoes }].map(sameText);
    if (before !== now) throw keyTaken(request, stored.revision);
    return acknowledge(stored, true);
  }

  private async since({ assessment, base }: ChangeRequest, revision: number): Promise<readonly StoredChange[]> {
    if (base === revision) return [];
    return await readChanges(this.database, { assessment, since: base, most: revision - base });
  }

  private linked(request: ChangeRequest, { revision, hash }: ChainState, link: Link): StoredChange {
    const { assessment, change, author, at, note, base, patch } = request;
    const unhashed = {
      ...{ assessment, revision: revision + 1, change, base, patch, author, at },
      ...(note === undefined ? {} : { note }),
      ...{ received: this.receivedAt(), ...link },
      ...(hash === undefined ? {} : { previous: hash }),
    };
    return { ...unhashed, hash: changeHash(unhashed) };
  }

  private async writeFirst(stored: StoredChange, state: ChainState, source: SourceFile | undefined): Promise<void> {
    const { assessment, revision, hash, received } = stored;
    const shelf = shelfColumns(state.document as Assessment);
    await this.database.transaction().execute(async (transaction) => {
      await transaction
        .insertInto('assessments')
        .values({ assessment, revision, hash, changed: received, ...shelf })
        .execute();
      await transaction.insertInto('changes').values(rowOfChange(stored)).execute();
      await keepHead(transaction, assessment, state);
      if (source)
        await transaction
          .insertInto('sources')
          .values({ assessment, name: source.name, bytes: source.bytes })
          .execute();
    });
  }

  private async writeNext(stored: StoredChange, shelf: ShelfColumns): Promise<void> {
    const { assessment, revision, hash, received } = stored;
    await this.database.transaction().execute(async (transaction) => {
      await transaction.insertInto('changes').values(rowOfChange(stored)).execute();
      await transaction
        .updateTable('assessments')
        .set({ revision, hash, changed: received, ...shelf })
        .where('assessment', '=', assessment)
        .execute();
    });
  }
}

/** Does the ledger hold an assessment of this id? */
export const isKnown = async (database: LedgerDatabase, assessment: string): Promise<boolean> => {
  const row = await database
    .selectFrom('assessments')
    .select('assessment')
    .where('assessment', '=', assessment)
    .executeTakeFirst();
  return row !== undefined;
};

/** The state of a chain after a revision. Throws kind `not-in-ledger` when there is no such revision. */
export const stateAt = async (database: LedgerDatabase, assessment: string, revision: number): Promise<ChainState> => {
  const { state } = await followChain(database, assessment, { to: revision });
  if (revision >= 1 && state.revision === revision) return state;
  throw new UnfastenError('not-in-ledger', 'There is no such revision', {
    where: assessment,
    value: revision,
    remedy: `Ask for a revision from 1 to ${state.revision}.`,
  });
};

const acknowledge = (
  { assessment, change, revision, hash, base, received }: StoredChange,
  repeated: boolean,
): Acknowledgement => ({ assessment, change, revision, hash, merged: base < revision - 1, received, repeated });

/** What must be equal for two requests to be the same one. */
const sameText = ({ base, patch, author, at, note, undoes }: ChangeRequest & { undoes?: number | undefined }): string =>
  canonicalJson({ base, patch, author, at, note, undoes });

const taken = (assessment: string) =>
  refuseChange('There is an assessment of this id already', assessment, [
    faultAt('assessment', 'this id is taken', { value: assessment, remedy: 'Choose another id.' }),
  ]);

const keyTaken = ({ assessment, change }: ChangeRequest, revision: number) =>
  refuseChange('Another change was sent under this key', assessment, [
    faultAt('change', `revision ${revision} has this key and another content`, {
      value: change,
      remedy: 'Give every change a key of its own.',
    }),
  ]);
