import type { Entry, Session } from '../schema/assessment.ts';

/** A stretch in which something was done again, with its end; that of one that still goes on is without end. */
export interface RetakeStretch {
  readonly key: string;
  readonly from: number;
  readonly to: number;
}

/** Which stretches of a session are retakes, first to last? Once a session object, which must not change afterwards. */
export const retakesOf = (session: Session): readonly RetakeStretch[] => {
  if (session.retakes === undefined) return NONE;
  const known = stretches.get(session);
  if (known) return known;
  const found = Object.entries(session.retakes)
    .map(([key, { from, to = Number.POSITIVE_INFINITY }]) => ({ key, from, to }))
    .sort((a, b) => a.from - b.from || a.to - b.to);
  stretches.set(session, found);
  return found;
};

const NONE: readonly RetakeStretch[] = [];
const stretches = new WeakMap<Session, readonly RetakeStretch[]>();

/**
 * In which retake was an entry made? By its beginning where it has one, so that a heat begun before and ended in the stretch
 * stays work of the session; else by its end. Undefined for work of the session itself.
 */
export const retakeOf = (
  session: Session,
  { at, began = at }: Pick<Entry, 'at' | 'began'>,
): RetakeStretch | undefined => retakesOf(session).find(({ from, to }) => began > from && began <= to);
