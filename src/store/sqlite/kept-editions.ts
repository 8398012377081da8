import { UnfastenError } from '#quantity/unfasten-error';
import { sha256Hex } from '../canonical-json.ts';
import type { EditionItem, KeptEdition, NewEdition } from '../ledger.ts';
import { faultAt, refuseChange } from '../patch/patch-faults.ts';
import { storeLimits } from '../store-limits.ts';
import type { LedgerDatabase } from './tables.ts';

const ITEM = ['id', 'edition', 'sha256', 'author', 'at', 'received'] as const;

/** What is kept in editions: house rubrics, and the readings of laboratories. Named as its table. */
export type EditionKind = 'rubrics' | 'laboratories';

const NOUN = { rubrics: 'rubric', laboratories: 'laboratory' } as const;

/** Which editions of a kind are kept? The one kept last first. */
export const editionItems = async (database: LedgerDatabase, kind: EditionKind): Promise<readonly EditionItem[]> =>
  await database
    .selectFrom(kind)
    .select(ITEM)
    .orderBy('received', 'desc')
    .orderBy('id')
    .orderBy('edition', 'desc')
    .execute();

/** One kept edition, with its text. Throws kind `not-in-ledger`. */
export const keptEdition = async (
  database: LedgerDatabase,
  kind: EditionKind,
  { id, edition }: Pick<NewEdition, 'id' | 'edition'>,
): Promise<KeptEdition> => {
  const rows = database.selectFrom(kind).selectAll().where('id', '=', id).where('edition', '=', edition);
  const row = await rows.executeTakeFirst();
  if (row) return row;
  throw new UnfastenError('not-in-ledger', `There is no such edition of a ${NOUN[kind]}`, {
    where: NOUN[kind],
    value: `${id}, edition ${edition}`,
    remedy: 'Look at the list of kept editions.',
  });
};

/**
 * Keeps an edition. The same text again is answered again; another text under a kept edition, or an edition below the highest,
 * is refused with kind `change`. Whether the text is what it should be is for the caller to see to.
 */
export const keepEdition = async (
  database: LedgerDatabase,
  kind: EditionKind,
  { id, edition, text, author, at, received }: NewEdition & { readonly received: string },
): Promise<KeptEdition> => {
  checkSize(kind, { text, author });
  const sha256 = sha256Hex(text);
  const kept = await database.selectFrom(kind).selectAll().where('id', '=', id).orderBy('edition', 'desc').execute();
  const same = kept.find((row) => row.edition === edition);
  if (same?.sha256 === sha256) return same;
  const highest = kept[0]?.edition ?? 0;
  if (edition <= highest) throw editionTaken(kind, { id, edition }, highest);
  const row = { id, edition, sha256, text, author, at, received };
  await database.insertInto(kind).values(row).execute();
  return row;
};

const checkSize = (kind: EditionKind, { text, author }: { readonly text: string; readonly author: string }): void => {
  const bytes = Buffer.byteLength(text);
  const most = storeLimits.rubricBytes;
  const faults = [
    ...(bytes > most
      ? [faultAt('', `a ${NOUN[kind]} has at most ${most} bytes`, { value: bytes, remedy: 'Shorten it.' })]
      : []),
    ...(author === '' || author.length > storeLimits.authorCharacters
      ? [faultAt('author', 'an author has a name', { value: author, remedy: 'Name yourself, briefly.' })]
      : []),
  ];
  if (faults.length > 0) throw refuseChange(`The ${NOUN[kind]} cannot be kept`, NOUN[kind], faults);
};

const editionTaken = (
  kind: EditionKind,
  { id, edition }: Pick<NewEdition, 'id' | 'edition'>,
  highest: number,
): UnfastenError<'change'> =>
  refuseChange(`The ${NOUN[kind]} cannot be kept`, NOUN[kind], [
    faultAt('edition', `the highest kept edition of ${id} is ${highest}`, {
      value: edition,
      remedy: `Write edition: ${highest + 1}; a kept edition is never rewritten.`,
    }),
  ]);

/** Which kept editions of a kind do not have the SHA-256 they were kept with? Each by its name. */
export const spoiltEditions = async (database: LedgerDatabase, kind: EditionKind): Promise<readonly string[]> => {
  const rows = await database.selectFrom(kind).selectAll().orderBy('id').orderBy('edition').execute();
  return rows.flatMap(({ text, sha256, id, edition }) =>
    sha256Hex(text) === sha256 ? [] : [`${NOUN[kind]} ${id}, edition ${edition}`],
  );
};
