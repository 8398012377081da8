import type { Operation } from '#record/patch/operation';
import { writtenPlaces } from '#record/patch/written-places';
import type { Assessment } from '#record/schema/assessment';
import type { ShelfState } from '../ledger.ts';

/** What the shelf shows of a document. */
export interface ShelfColumns {
  readonly title: string | null;
  readonly product: string;
  readonly category: string | null;
  /** 1 or 0, since SQLite knows no true and false. */
  readonly invented: number;
  readonly state: ShelfState;
}

/** What does the shelf show of a document? Cost: looks at the first entry of each session. */
export const shelfColumns = ({ title, product, invented, sessions }: Assessment): ShelfColumns => ({
  title: title ?? null,
  product: product.name,
  category: product.category ?? null,
  invented: invented === true ? 1 : 0,
  state: hasEntry(sessions) ? 'logged' : 'prepared',
});

/** Members of a document that the shelf shows; the log is looked at apart. */
const SHOWN: ReadonlySet<string | undefined> = new Set(['title', 'product', 'invented']);

/** Keys down to one entry: `sessions/x1/entries/e5`. */
const ENTRY_DEPTH = 4;

/** What does the shelf show after a patch? An entry added to a log that has some changes nothing there. */
export const shelfAfter = (before: ShelfColumns, document: Assessment, patch: readonly Operation[]): ShelfColumns => {
  const isUntouched = patch.every((operation) =>
    writtenPlaces(operation).every((place) => {
      if (place[0] !== 'sessions') return !SHOWN.has(place[0]);
      const isInEntry = place.length >= ENTRY_DEPTH && (operation.op === 'add' || operation.op === 'replace');
      return before.state === 'logged' && isInEntry;
    }),
  );
  return isUntouched ? before : shelfColumns(document);
};

const hasEntry = (sessions: Assessment['sessions']): boolean => {
  for (const session of Object.values(sessions ?? {})) for (const _ in session.entries) return true;
  return false;
};
