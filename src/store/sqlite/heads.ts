import { UnfastenError } from '#quantity/unfasten-error';
import type { Assessment } from '#record/schema/assessment';
import { canonicalJson, sha256Hex } from '../canonical-json.ts';
import type { ChainState } from '../chain/follow-chain.ts';
import { shelfColumns } from '../chain/shelf-entry.ts';
import type { BrokenLink, RebuiltHead } from '../ledger.ts';
import { followChain } from './read-chain.ts';
import type { LedgerDatabase } from './tables.ts';

/** Refuses to go on with a chain that does not hold. */
const brokenChain = ({ assessment, revision, what }: BrokenLink): UnfastenError<'ledger'> =>
  new UnfastenError('ledger', `The chain of changes does not hold: ${what}`, {
    where: revision === undefined ? assessment : `${assessment} revision ${revision}`,
    value: revision,
    remedy: 'Run `unfasten ledger verify`; bring back the last backup.',
  });

/** Why is a kept head no good? `undefined` when it fits the chain. Cost: one hash over the kept text. */
export const headMisfit = async (database: LedgerDatabase, assessment: string): Promise<string | undefined> => {
  const tip = await tipOf(database, assessment);
  const row = await database
    .selectFrom('assessments')
    .select(['revision', 'hash'])
    .where('assessment', '=', assessment)
    .executeTakeFirst();
  if (row?.revision !== tip?.revision || row?.hash !== tip?.hash) return 'the shelf names another last change';
  const head = await database.selectFrom('heads').selectAll().where('assessment', '=', assessment).executeTakeFirst();
  if (head === undefined) return 'there was no kept document';
  if (sha256Hex(head.document) !== head.document_sha256) return 'the kept document has another hash';
  const link = await database
    .selectFrom('changes')
    .select('hash')
    .where('assessment', '=', assessment)
    .where('revision', '=', head.revision)
    .executeTakeFirst();
  return link?.hash === head.hash ? undefined : 'the kept document belongs to another chain';
};

/** The last change of a chain. */
const tipOf = (database: LedgerDatabase, assessment: string) =>
  database
    .selectFrom('changes')
    .select(['revision', 'hash', 'received'])
    .where('assessment', '=', assessment)
    .orderBy('revision', 'desc')
    .limit(1)
    .executeTakeFirst();

/** Loads the present state: the kept document and the changes after it. Throws kind `ledger` when that does not hold. */
export const loadHead = async (
  database: LedgerDatabase,
  assessment: string,
): Promise<{ readonly state: ChainState; readonly keptRevision: number }> => {
  const misfit = await headMisfit(database, assessment);
  if (misfit !== undefined) throw brokenChain({ assessment, what: misfit });
  const head = await database
    .selectFrom('heads')
    .selectAll()
    .where('assessment', '=', assessment)
    .executeTakeFirstOrThrow();
  const from = { revision: head.revision, hash: head.hash, document: JSON.parse(head.document) as unknown };
  const { state, broken } = await followChain(database, assessment, { from });
  if (broken) throw brokenChain({ assessment, ...broken });
  return { state, keptRevision: head.revision };
};

/** Keeps a document, so that the chain need not be replayed. */
export const keepHead = async (
  database: LedgerDatabase,
  assessment: string,
  { revision, hash, document }: ChainState,
): Promise<void> => {
  const text = canonicalJson(document);
  const kept = { revision, hash: hash ?? '', document: text, document_sha256: sha256Hex(text) };
  await database
    .insertInto('heads')
    .values({ assessment, ...kept })
    .onConflict((conflict) => conflict.column('assessment').doUpdateSet(kept))
    .execute();
};

/** Makes tip, shelf entry and kept document anew from the changes. Throws kind `ledger` when the chain does not hold. */
export const rebuildHead = async (database: LedgerDatabase, assessment: string, why: string): Promise<RebuiltHead> => {
  const { state, broken } = await followChain(database, assessment);
  if (broken) throw brokenChain({ assessment, ...broken });
  const tip = await tipOf(database, assessment);
  if (tip === undefined) throw brokenChain({ assessment, what: 'it has no change at all' });
  await database.transaction().execute(async (transaction) => {
    await transaction
      .updateTable('assessments')
      .set({
        revision: tip.revision,
        hash: tip.hash,
        changed: tip.received,
        ...shelfColumns(state.document as Assessment),
      })
      .where('assessment', '=', assessment)
      .execute();
    await keepHead(transaction, assessment, state);
  });
  return { assessment, revision: tip.revision, why };
};
