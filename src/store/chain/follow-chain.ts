import type { StoredChange } from '../ledger.ts';
import { applyPatch } from '../patch/apply-patch.ts';
import { changeHash } from './change-hash.ts';

/** How far a chain was followed: the state after `revision`, whose change has `hash`. */
export interface ChainState {
  readonly revision: number;
  readonly hash: string | undefined;
  readonly document: unknown;
}

/** The state before the first change. */
export const emptyChain: ChainState = { revision: 0, hash: undefined, document: undefined };

/**
 * Does a change fit onto the chain so far: in number, in its link, in its own hash, in its patch? Gives the next state, or
 * in one sentence what does not fit.
 */
export const followChange = (
  state: ChainState,
  change: StoredChange,
): { readonly state: ChainState } | { readonly misfit: string } => {
  const { hash, ...unhashed } = change;
  const { revision, previous, base } = change;
  if (revision !== state.revision + 1) return { misfit: `revision ${state.revision + 1} is missing` };
  if (previous !== state.hash)
    return {
      misfit: `it names ${previous ?? 'nothing'} as the change before it, which has ${state.hash ?? 'no hash'}`,
    };
  if (base < 0 || base >= revision) return { misfit: `it was made against revision ${base}, which is not before it` };
  const computed = changeHash(unhashed);
  if (computed !== hash) return { misfit: `its content has the hash ${computed}, the ledger says ${hash}` };
  const { document, faults, failedTests } = applyPatch(state.document, change.patch);
  const [fault] = faults;
  if (fault) return { misfit: `its patch does not apply: ${fault.message}` };
  const [failed] = failedTests;
  if (failed) return { misfit: `its test of ${failed.path} does not hold` };
  return { state: { revision, hash, document } };
};
