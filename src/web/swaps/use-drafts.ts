import { useState } from 'react';
import { type Drafts, keepDrafts, keptDrafts } from './kept-run.ts';
import type { FitDraft, RunDraft } from './run-draft.ts';

/** The runs being written on this sheet, and what can be done with them. Everything is kept in this browser as it is typed. */
export interface DraftsInHand {
  readonly current: RunDraft | undefined;
  readonly aside: Drafts;
  /** True where this browser keeps nothing, so that a closed page loses what is not saved. */
  readonly unkept: boolean;
  readonly set: (some: Partial<RunDraft>) => void;
  readonly setFit: (index: number, some: Partial<FitDraft>) => void;
  /** Puts a run on the sheet; what lies there is laid aside. */
  readonly put: (run: RunDraft) => void;
  /** Takes up what was laid aside. */
  readonly takeUp: (index: number) => void;
  /** The run on the sheet is done with: what was laid aside stays aside. */
  readonly done: () => void;
}

/** The sheet of one assessment: `idle` while none of what lies there is being written. */
export const useDrafts = (assessment: string): DraftsInHand => {
  const [drafts, setDrafts] = useState<Drafts>(() => keptDrafts(assessment));
  const [isIdle, setIdle] = useState(false);
  const [unkept, setUnkept] = useState(false);
  const change = (next: Drafts, idle = false) => {
    setUnkept(!keepDrafts(assessment, next));
    setDrafts(next);
    setIdle(idle);
  };
  const [first, ...rest] = drafts;
  const current = isIdle ? undefined : first;
  return {
    current,
    aside: isIdle ? drafts : rest,
    unkept,
    set: (some) => current && change([{ ...current, ...some }, ...rest]),
    setFit: (index, some) => {
      if (!current) return;
      const fits = current.fits.map((fit, at) => (at === index ? { ...fit, ...some } : fit));
      change([{ ...current, fits }, ...rest]);
    },
    put: (run) => change([run, ...drafts]),
    takeUp: (index) => {
      const at = isIdle ? index : index + 1;
      const taken = drafts[at];
      if (taken) change([taken, ...drafts.filter((_, other) => other !== at)]);
    },
    done: () => change(rest, rest.length > 0),
  };
};
