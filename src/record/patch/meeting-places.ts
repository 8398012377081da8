import { type Keys, pointerOf, readPointer } from './json-pointer.ts';
import type { Patch } from './operation.ts';
import { writtenPlaces } from './written-places.ts';

/** Which places does a patch depend on: those it writes, and those it copies from? Tests are asked of the head itself. */
const touchedPlaces = (patch: Patch): readonly Keys[] =>
  patch.flatMap((operation) =>
    operation.op === 'copy'
      ? [readPointer(operation.from) ?? [], ...writtenPlaces(operation)]
      : writtenPlaces(operation),
  );

/**
 * At which of its places does a patch meet what others wrote since? Two places meet when they are the same or one lies
 * inside the other; two ids added to one map do not meet. One rule for ledger and page, so that both find the same clashes.
 * Cost: linear in both patches.
 */
export const meetingPlaces = (mine: Patch, theirs: Patch): readonly Keys[] => {
  const written = new Set<string>();
  const aboveWritten = new Set<string>();
  for (const place of theirs.flatMap(writtenPlaces)) {
    written.add(pointerOf(place));
    for (const above of placesAbove(place)) aboveWritten.add(above);
  }
  return touchedPlaces(mine).filter((place) => {
    const here = pointerOf(place);
    return written.has(here) || aboveWritten.has(here) || placesAbove(place).some((above) => written.has(above));
  });
};

const placesAbove = (place: Keys): readonly string[] => place.map((_, length) => pointerOf(place.slice(0, length)));
