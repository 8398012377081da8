import { useEffect, useState } from 'react';
import type { Assessment } from '#record/schema/assessment';
import { readHead, readShelf } from '../ledger/ledger-client.ts';
import { predecessorOn } from './predecessor-on.ts';

/** The predecessor's record as the screen has it: still looked for, not named, not on the shelf, out of reach, or there. */
export type Predecessor =
  | { readonly state: 'looked-for' | 'not-named' }
  | { readonly state: 'not-there' | 'out-of-reach'; readonly name: string }
  | { readonly state: 'there'; readonly name: string; readonly document: Assessment };

/** The record of the predecessor that a document names, where it is on the shelf. Read once for each name. */
export const usePredecessor = (document: Assessment): Predecessor => {
  const name = document.product.predecessor;
  const [found, setFound] = useState<Predecessor>({ state: 'looked-for' });
  useEffect(() => {
    if (name === undefined || name === '') return setFound({ state: 'not-named' });
    let isGone = false;
    const keep = (predecessor: Predecessor) => {
      if (!isGone) setFound(predecessor);
    };
    lookFor(name).then(keep, () => keep({ state: 'out-of-reach', name }));
    return () => {
      isGone = true;
    };
  }, [name]);
  return found;
};

const lookFor = async (name: string): Promise<Predecessor> => {
  const assessment = predecessorOn(await readShelf(), name);
  if (assessment === undefined) return { state: 'not-there', name };
  const { document } = await readHead(assessment);
  return { state: 'there', name: document.product.name, document };
};
