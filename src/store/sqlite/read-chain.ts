import { type ChainState, emptyChain, followChange } from '../chain/follow-chain.ts';
import type { StoredChange } from '../ledger.ts';
import { changeOfRow } from './stored-rows.ts';
import type { LedgerDatabase } from './tables.ts';

/** Changes read at once: bounds the memory for a long chain. */
const PAGE = 500;

/** Which changes follow a revision? In their order, at most `most`. */
export const readChanges = async (
  database: LedgerDatabase,
  { assessment, since, most }: { readonly assessment: string; readonly since: number; readonly most: number },
): Promise<readonly StoredChange[]> => {
  const rows = await database
    .selectFrom('changes')
    .selectAll()
    .where('assessment', '=', assessment)
    .where('revision', '>', since)
    .orderBy('revision')
    .limit(most)
    .execute();
  return rows.map(changeOfRow);
};

/** All changes after a revision, page by page. */
export async function* allChanges(
  database: LedgerDatabase,
  assessment: string,
  since = 0,
): AsyncGenerator<StoredChange> {
  let last = since;
  for (;;) {
    const page = await readChanges(database, { assessment, since: last, most: PAGE });
    yield* page;
    if (page.length < PAGE) return;
    last = page.at(-1)?.revision ?? last;
  }
}

/** A chain followed as far as it holds. */
export interface FollowedChain {
  readonly state: ChainState;
  /** The first change that does not fit, and why. */
  readonly broken?: { readonly revision: number; readonly what: string };
}

/** Follows a chain from a state (the beginning unless said) to its end, or to a revision, checking every link. */
export const followChain = async (
  database: LedgerDatabase,
  assessment: string,
  { from = emptyChain, to = Number.POSITIVE_INFINITY }: { readonly from?: ChainState; readonly to?: number } = {},
): Promise<FollowedChain> => {
  let state = from;
  if (state.revision >= to) return { state };
  for await (const change of allChanges(database, assessment, from.revision)) {
    const next = followChange(state, change);
    if ('misfit' in next) return { state, broken: { revision: change.revision, what: next.misfit } };
    state = next.state;
    if (state.revision >= to) break;
  }
  return { state };
};
