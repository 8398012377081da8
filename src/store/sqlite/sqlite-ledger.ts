import { UnfastenError } from '#quantity/unfasten-error';
import type { Assessment } from '#record/schema/assessment';
import { canonicalJson } from '../canonical-json.ts';
import type { ChainState } from '../chain/follow-chain.ts';
import type {
  Acknowledgement,
  ChangeRequest,
  EditionItem,
  Head,
  KeptEdition,
  Ledger,
  NewAssessment,
  NewEdition,
  RebuiltHead,
  ShelfItem,
  SourceFile,
  StoredChange,
  UndoRequest,
  Verification,
} from '../ledger.ts';
import { firstChangeOf } from '../patch/first-change.ts';
import { invertPatch } from '../patch/invert-patch.ts';
import { refuseChange } from '../patch/patch-faults.ts';
import { checkChangeHead, readPatch } from '../patch/read-change.ts';
import { ChainWriter, isKnown, stateAt } from './chain-writer.ts';
import { rebuildHead } from './heads.ts';
import { type EditionKind, editionItems, keepEdition, keptEdition } from './kept-editions.ts';
import { LiveHeads } from './live-heads.ts';
import type { OpenDatabase } from './open-database.ts';
import { readChanges } from './read-chain.ts';
import { withStorageErrors } from './storage-error.ts';
import { shelfItemOf } from './stored-rows.ts';
import { verifyLedger } from './verify-ledger.ts';

/** What a ledger on SQLite is made of. */
export interface SqliteLedgerParts {
  readonly database: OpenDatabase;
  readonly readOnly: boolean;
  /** Lets go of the data folder. */
  release(): void;
  /** The ledger's own wall time, RFC 3339. */
  receivedAt(): string;
}

/** Changes given out at once unless said. */
const MOST_CHANGES = 1_000;

/** The ledger on SQLite: see `Ledger`. Calls are answered one after the other. */
export class SqliteLedger implements Ledger {
  private readonly parts: SqliteLedgerParts;
  private readonly heads: LiveHeads;
  private readonly writer: ChainWriter;
  private last: Promise<unknown> = Promise.resolve();
  private copying: Promise<unknown> = Promise.resolve();
  private closing: Promise<void> | undefined;

  constructor(parts: SqliteLedgerParts) {
    this.parts = parts;
    this.heads = new LiveHeads(parts.database.query);
    this.writer = new ChainWriter(parts.database.query, this.heads, parts.receivedAt);
  }

  create(request: NewAssessment): Promise<Acknowledgement> {
    return this.writing(() => this.writer.begin(request, firstChangeOf(request)));
  }

  append(request: ChangeRequest): Promise<Acknowledgement> {
    return this.writing(async () => {
      checkChangeHead(request, { base: request.base });
      const { patch, bytes } = readPatch(request);
      await this.mustHave(request.assessment);
      return await this.writer.take({ ...request, patch }, bytes);
    });
  }

  undo({ undoes, ...head }: UndoRequest): Promise<Acknowledgement> {
    return this.writing(async () => {
      checkChangeHead(head, { undoes });
      if (undoes === 1) throw refuseChange('The first change cannot be taken back', head.assessment, []);
      await this.mustHave(head.assessment);
      const { query } = this.parts.database;
      const [before, after] = [
        await stateAt(query, head.assessment, undoes - 1),
        await readChanges(query, { assessment: head.assessment, since: undoes - 1, most: 1 }),
      ];
      const inverse = after.flatMap(({ patch }) => invertPatch(before.document, patch));
      if (after.length === 0) await stateAt(query, head.assessment, undoes);
      // Made from what is stored, with a test before each operation: the limits on what a client sends do not bind it.
      const bytes = Buffer.byteLength(canonicalJson(inverse));
      return await this.writer.take({ ...head, base: undoes, patch: inverse }, bytes, undoes);
    });
  }

  shelf(): Promise<readonly ShelfItem[]> {
    return this.inTurn(async () => {
      const { query } = this.parts.database;
      const shelf = query.selectFrom('assessments').selectAll().orderBy('changed', 'desc').orderBy('assessment');
      return (await shelf.execute()).map(shelfItemOf);
    });
  }

  head(assessment: string): Promise<Head> {
    return this.inTurn(async () => {
      await this.mustHave(assessment);
      return headOf(assessment, (await this.heads.get(assessment)).state);
    });
  }

  at(assessment: string, revision: number): Promise<Head> {
    return this.inTurn(async () => {
      await this.mustHave(assessment);
      return headOf(assessment, await stateAt(this.parts.database.query, assessment, revision));
    });
  }

  changes(assessment: string, since: number, most = MOST_CHANGES): Promise<readonly StoredChange[]> {
    return this.inTurn(async () => {
      await this.mustHave(assessment);
      return await readChanges(this.parts.database.query, { assessment, since, most });
    });
  }

  source(assessment: string): Promise<SourceFile | undefined> {
    return this.inTurn(async () => {
      await this.mustHave(assessment);
      const { query } = this.parts.database;
      const sources = query.selectFrom('sources').selectAll().where('assessment', '=', assessment);
      const row = await sources.executeTakeFirst();
      if (row === undefined) return undefined;
      const [first] = await readChanges(query, { assessment, since: 0, most: 1 });
      return { name: row.name, bytes: row.bytes, files: first?.source?.files ?? {} };
    });
  }

  rubrics(): Promise<readonly EditionItem[]> {
    return this.inTurn(() => editionItems(this.parts.database.query, 'rubrics'));
  }

  rubric(id: string, edition: number): Promise<KeptEdition> {
    return this.inTurn(() => keptEdition(this.parts.database.query, 'rubrics', { id, edition }));
  }

  addRubric(request: NewEdition): Promise<KeptEdition> {
    return this.keep('rubrics', request);
  }

  laboratories(): Promise<readonly EditionItem[]> {
    return this.inTurn(() => editionItems(this.parts.database.query, 'laboratories'));
  }

  laboratory(id: string, edition: number): Promise<KeptEdition> {
    return this.inTurn(() => keptEdition(this.parts.database.query, 'laboratories', { id, edition }));
  }

  addLaboratory(request: NewEdition): Promise<KeptEdition> {
    return this.keep('laboratories', request);
  }

  private keep(kind: EditionKind, request: NewEdition): Promise<KeptEdition> {
    const received = this.parts.receivedAt();
    return this.writing(() => keepEdition(this.parts.database.query, kind, { ...request, received }));
  }

  verify(): Promise<Verification> {
    return this.inTurn(() => verifyLedger(this.parts.database));
  }

  rebuild(): Promise<readonly RebuiltHead[]> {
    return this.writing(async () => {
      this.heads.clear();
      const { query } = this.parts.database;
      const rows = await query.selectFrom('assessments').select('assessment').orderBy('assessment').execute();
      const rebuilt: RebuiltHead[] = [];
      for (const { assessment } of rows) rebuilt.push(await rebuildHead(query, assessment, 'asked for'));
      return rebuilt;
    });
  }

  backup(file: string): Promise<void> {
    if (this.closing) return Promise.reject(closed(this.parts.database.file));
    const { bare } = this.parts.database;
    // Beside the queue: changes go on while the pages are copied, and closing waits for it. A copying step never falls
    // into a transaction, since those wait for nothing but this process's own promises.
    const copied = withStorageErrors(file, async () => void (await bare.backup(file)));
    this.copying = Promise.all([this.copying, copied.catch(() => undefined)]);
    return copied;
  }

  close(): Promise<void> {
    this.closing ??= this.inTurn(async () => {
      await this.copying;
      await this.keepHeads({ all: true });
      await this.parts.database.close();
      this.parts.release();
    });
    return this.closing;
  }

  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    if (this.closing) return Promise.reject(closed(this.parts.database.file));
    const turn = this.last.then(() => withStorageErrors(this.parts.database.file, work));
    this.last = turn.catch(() => undefined);
    return turn;
  }

  private writing<T>(work: () => Promise<T>): Promise<T> {
    if (this.parts.readOnly) return Promise.reject(openedToRead(this.parts.database.file));
    const done = this.inTurn(work);
    this.last = this.last.then(() => this.keepHeads({ all: false }));
    return done;
  }

  /** A kept document is a convenience: when it cannot be written, the next opening replays a few changes more. */
  private async keepHeads(which: { readonly all: boolean }): Promise<void> {
    if (this.parts.readOnly) return;
    await this.heads.keep(which).catch(() => undefined);
  }

  private async mustHave(assessment: string): Promise<void> {
    if (this.heads.has(assessment) || (await isKnown(this.parts.database.query, assessment))) return;
    throw new UnfastenError('not-in-ledger', 'There is no assessment of this id', {
      where: 'assessment',
      value: assessment,
      remedy: 'Look at the shelf for the ids there are.',
    });
  }
}

const headOf = (assessment: string, { revision, hash, document }: ChainState): Head => ({
  assessment,
  revision,
  hash: hash ?? '',
  document: document as Assessment,
});

const closed = (file: string): UnfastenError<'storage'> =>
  new UnfastenError('storage', 'The ledger is closed', { where: file, value: undefined, remedy: 'Open it again.' });

const openedToRead = (file: string): UnfastenError<'storage'> =>
  new UnfastenError('storage', 'The ledger was opened for reading only', {
    where: file,
    value: undefined,
    remedy: 'Open it for writing.',
  });
