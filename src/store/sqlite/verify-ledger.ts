import { canonicalJson, sha256Hex } from '../canonical-json.ts';
import { emptyChain, followChange } from '../chain/follow-chain.ts';
import type { BrokenLink, Verification } from '../ledger.ts';
import { headMisfit } from './heads.ts';
import { spoiltEditions } from './kept-editions.ts';
import type { OpenDatabase } from './open-database.ts';
import { allChanges } from './read-chain.ts';
import { asStorageError } from './storage-error.ts';

/**
 * Walks every chain from its beginning: see `Ledger.verify`. All of it is read at one moment of the database, so that
 * another process that goes on writing never makes the shelf look ahead of its chain.
 */
export const verifyLedger = async (database: OpenDatabase): Promise<Verification> => {
  const damage = pageDamage(database);
  if (damage.length > 0) return await walkAll(database, damage);
  return await database.query.transaction().execute((query) => walkAll({ ...database, query }, damage));
};

const walkAll = async (database: OpenDatabase, damage: string[]): Promise<Verification> => {
  const result = { changes: 0, broken: [] as BrokenLink[], heads: [] as Verification['heads'][number][] };
  const names = await assessmentNames(database, damage);
  for (const assessment of names) {
    try {
      const walked = await walkChain(database, assessment);
      result.changes += walked.changes;
      if (walked.broken) result.broken.push({ assessment, ...walked.broken });
      if (walked.hash !== undefined) result.heads.push({ assessment, revision: walked.revision, hash: walked.hash });
    } catch (error) {
      result.broken.push({ assessment, what: `it cannot be read: ${messageOf(error)}` });
    }
  }
  result.broken.push(...(await brokenEditions(database, damage)));
  const sound = damage.length === 0 && result.broken.length === 0;
  return { sound, assessments: names.length, damage, ...result };
};

const assessmentNames = async ({ query }: OpenDatabase, damage: string[]): Promise<readonly string[]> => {
  try {
    const shelved = await query.selectFrom('assessments').select('assessment').execute();
    const chained = await query.selectFrom('changes').select('assessment').distinct().execute();
    return [...new Set([...shelved, ...chained].map(({ assessment }) => assessment))].sort();
  } catch (error) {
    damage.push(messageOf(error));
    return [];
  }
};

/** A kept edition whose text no longer has its SHA-256 stands in the list under its own name. */
const brokenEditions = async ({ query }: OpenDatabase, damage: string[]): Promise<readonly BrokenLink[]> => {
  try {
    const spoilt = [...(await spoiltEditions(query, 'rubrics')), ...(await spoiltEditions(query, 'laboratories'))];
    return spoilt.map((name) => ({
      assessment: name,
      what: 'its text does not have the SHA-256 it was kept with',
    }));
  } catch (error) {
    damage.push(messageOf(error));
    return [];
  }
};

/** What does SQLite's own check of pages and indexes find? Nothing when all is well. */
const pageDamage = ({ bare }: OpenDatabase): string[] => {
  try {
    const rows = bare.pragma('integrity_check') as readonly { readonly integrity_check: string }[];
    const lines = rows.map(({ integrity_check }) => integrity_check);
    return lines.length === 1 && lines[0] === 'ok' ? [] : lines;
  } catch (error) {
    return [messageOf(error)];
  }
};

interface WalkedChain {
  readonly changes: number;
  readonly revision: number;
  readonly hash: string | undefined;
  readonly broken?: { readonly revision?: number; readonly what: string };
}

const walkChain = async (database: OpenDatabase, assessment: string): Promise<WalkedChain> => {
  const kept = await keptDocument(database, assessment);
  let state = emptyChain;
  let keptFits = kept === undefined;
  for await (const change of allChanges(database.query, assessment)) {
    const next = followChange(state, change);
    if ('misfit' in next) return { ...walked(state), broken: { revision: change.revision, what: next.misfit } };
    state = next.state;
    const source = change.source && (await sourceMisfit(database, assessment, change.source));
    if (source) return { ...walked(state), broken: { revision: change.revision, what: source } };
    if (state.revision === kept?.revision) keptFits = canonicalJson(state.document) === kept.document;
  }
  const misfit = (await headMisfit(database.query, assessment)) ?? (keptFits ? undefined : KEPT_DIFFERS);
  return misfit === undefined ? walked(state) : { ...walked(state), broken: { what: misfit } };
};

const KEPT_DIFFERS = 'the kept document is not what the changes give; `unfasten ledger rebuild` makes it anew';

const walked = ({ revision, hash }: { revision: number; hash: string | undefined }): WalkedChain => ({
  changes: revision,
  revision,
  hash,
});

const keptDocument = ({ query }: OpenDatabase, assessment: string) =>
  query.selectFrom('heads').selectAll().where('assessment', '=', assessment).executeTakeFirst();

const sourceMisfit = async (
  { query }: OpenDatabase,
  assessment: string,
  { name, sha256 }: { readonly name: string; readonly sha256: string },
): Promise<string | undefined> => {
  const row = await query.selectFrom('sources').selectAll().where('assessment', '=', assessment).executeTakeFirst();
  if (row === undefined) return `the imported file ${name} is missing`;
  return sha256Hex(row.bytes) === sha256 ? undefined : `the imported file ${name} has another content`;
};

const messageOf = (error: unknown): string => {
  const shown = asStorageError(error, 'ledger');
  return shown instanceof Error ? shown.message : String(shown);
};
