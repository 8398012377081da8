import { restoredDrafts } from './restored-drafts.ts';
import type { RunDraft } from './run-draft.ts';

/** What lies on the sheet: the run that is being written first, then those laid aside. */
export type Drafts = readonly RunDraft[];

/** Where drafts are kept: the browser's own store, or one like it. */
export type DraftStore = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

const keyOf = (assessment: string): string => `unfasten.run-sheet.${assessment}`;

/** The runs as they were being written on this sheet, also after the page was closed. */
export const keptDrafts = (assessment: string, store: () => DraftStore = () => localStorage): Drafts => {
  try {
    return restoredDrafts(JSON.parse(store().getItem(keyOf(assessment)) ?? '[]'));
  } catch {
    return [];
  }
};

/** Keeps what is being written, so that a closed or crashed page loses none of it. False where this browser keeps nothing. */
export const keepDrafts = (
  assessment: string,
  drafts: Drafts,
  store: () => DraftStore = () => localStorage,
): boolean => {
  try {
    if (drafts.length === 0) store().removeItem(keyOf(assessment));
    else store().setItem(keyOf(assessment), JSON.stringify(drafts));
    return true;
  } catch {
    return false;
  }
};

/** Puts a run on top of what lies on the sheet; what lay there is laid aside, not lost. */
export const putOnSheet = (assessment: string, run: RunDraft): boolean =>
  keepDrafts(assessment, [run, ...keptDrafts(assessment)]);
