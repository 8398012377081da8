import { useEffect, useState } from 'react';
import type { Patch } from '#record/patch/operation';
import { nameEntry } from '../commands/bench-patches.ts';
import { type HeldAct, heldNow } from '../suggestion/held-acts.ts';
import type { LastChance, LastChanceView } from '../suggestion/last-chance.ts';

/** The acts that wait for a question to be answered or waved off. */
export interface HeldActs {
  /** What is asked before the first of them. */
  readonly question: LastChance | undefined;
  readonly waiting: readonly HeldAct[];
  readonly hold: (act: HeldAct) => void;
  /** Drops the act that was said last; its mark stays, without a name. */
  readonly drop: () => void;
}

/** Acts that were said and wait. Each is entered as soon as nothing is left to ask before it, whichever screen answered. */
export const useHeldActs = (view: LastChanceView, put: (patch: Patch) => void): HeldActs => {
  const [acts, setActs] = useState<readonly HeldAct[]>([]);
  const { question, held, released, fallen } = heldNow(view, acts);
  useEffect(() => {
    if (released.length + fallen.length === 0) return;
    setActs(held);
    const place = { document: view.document, session: view.session };
    put(released.flatMap(({ mark, naming, how, named }) => nameEntry(place, mark, { ...naming, named, naming: how })));
  });
  return {
    question,
    waiting: held,
    hold: (act) => setActs([...acts, act]),
    drop: () => setActs(acts.slice(0, -1)),
  };
};
