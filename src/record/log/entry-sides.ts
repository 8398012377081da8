import type { Device } from '../device/device.ts';
import { NO_TRIALS, type SubjectTrials } from './trials.ts';

/** From which faces is a part reached? `place` is the one its best route comes by, `others` the further ones; ids of faces. */
export interface EntrySides {
  readonly place: string | undefined;
  readonly others: readonly string[];
}

/**
 * From which faces can a part be reached? Each set that is enough for it, by sight or by a trial, counts for the face of the
 * parts in it: its own recorded face where none of them has one, and for no face where they have several, since that is
 * neither's way in. Where all count for one face there is no choice, and the recorded face stands. Else its place is the face
 * of a set that `off`, what is off on its best route, holds: its own recorded one before others; without any, the recorded one.
 */
export const entrySides = (
  part: string,
  off: ReadonlySet<string>,
  { device, trials }: { readonly device: Device; readonly trials: ReadonlyMap<string, SubjectTrials> },
): EntrySides => {
  const own = device.parts.get(part)?.record?.face;
  const { sight, positive } = trials.get(part) ?? NO_TRIALS;
  const sets = sight ? (sight.length === 0 ? [[]] : sight) : positive.map((trial) => trial.off);
  const ways = sets.flatMap((set) => {
    const parts = set.filter((id) => device.parts.has(id));
    const faces = new Set(parts.flatMap((id) => device.parts.get(id)?.record?.face ?? []));
    const side = faces.size === 0 ? own : [...faces][0];
    return side === undefined || faces.size > 1 ? [] : [{ side, isTaken: parts.every((id) => off.has(id)) }];
  });
  // One way in is no choice: what is lifted from the front may have its screws behind the back.
  if (own !== undefined && new Set(ways.map(({ side }) => side)).size < 2) return { place: own, others: [] };
  const taken = ways.filter(({ isTaken }) => isTaken).map(({ side }) => side);
  const place = own !== undefined && (taken.length === 0 || taken.includes(own)) ? own : (taken[0] ?? own);
  return { place, others: [...new Set(ways.map(({ side }) => side))].filter((side) => side !== place) };
};
