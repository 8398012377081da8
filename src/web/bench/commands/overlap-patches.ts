import type { Patch } from '#record/patch/operation';
import type { Entry, Session } from '#record/schema/assessment';
import { type BenchPlace, type Naming, withdrawEntry } from './bench-patches.ts';
import { chainOf } from './entry-chain.ts';
import { add, entryKeys } from './patch-parts.ts';

/** Begins a heat, a soak or a cure that may overlap other work: a mark with its beginning, named when it ends. */
export const startOverlap = (
  { session }: BenchPlace,
  overlap: {
    readonly key: string;
    readonly at: number;
    readonly goal?: string | undefined;
    readonly place?: string | undefined;
  },
): Patch => {
  const { key, at, goal, place } = overlap;
  const known = { ...(goal === undefined ? {} : { goal }), ...(place === undefined ? {} : { place }) };
  return [add(entryKeys(session, key), { at, began: at, ...known })];
};

/** Which heats, soaks and cures are going on? Marks with a beginning and no name that nobody took back. */
export const openOverlaps = (session: Session): readonly (readonly [string, Entry])[] => {
  const corrected = new Set(Object.values(session.entries).map(({ corrects }) => corrects));
  return Object.entries(session.entries).filter(
    ([key, entry]) => entry.began !== undefined && entry.do === undefined && !corrected.has(key),
  );
};

/**
 * Ends an overlapping work: an entry from its beginning to now takes the place of its mark and names it, so that taking the end
 * back lets it go on.
 */
export const stopOverlap = (
  { document, session }: BenchPlace,
  started: string,
  done: { readonly key: string; readonly at: number; readonly naming: Naming },
): Patch => {
  const record = document.sessions?.[session];
  const mark = record?.entries[started];
  if (!record || mark?.began === undefined) return [];
  const { root } = chainOf(record, started);
  const { goal, place, began } = mark;
  const known = { ...(goal === undefined ? {} : { goal }), ...(place === undefined ? {} : { place }) };
  const ended = { ...known, ...done.naming, at: done.at, began, ends: root, named: 'at-once', naming: 'by-hand' };
  return [...withdrawEntry({ document, session }, root), add(entryKeys(session, done.key), ended)];
};
