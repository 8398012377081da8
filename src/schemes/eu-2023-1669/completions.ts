import { evaluateIndex } from './evaluate-index.ts';
import { absenceDecides, BEST, completeAt, type End, FLOOR, SCORABLE_FLOORS, STRICT } from './fill-open.ts';
import type { IndexInput } from './input.ts';
import type { Interpretations } from './interpretations.ts';

/** Which weight columns are still possible? */
const possibleColumns = (input: IndexInput): readonly boolean[] =>
  input.foldable.state === 'known' ? [input.foldable.value] : [false, true];

/**
 * Which completions may be the one with the lowest R, or the highest? One for each weight column that is possible, and more where
 * absence decides whether R exists. For the lowest every open finding that decides a score takes the value of the lowest score *on*
 * the scale (steps without bound, removable, commercially available, present, 1 point on each ladder), so that R is a number; a
 * part that may be absent, and would be below the scale if it were there, is also taken as absent. For the highest: one step,
 * reusable, no tool, absent where absence is open, everything offered to everybody free, seven years. The pairing share of steps
 * decides no score and is left as it is.
 */
export const candidatesFor = (input: IndexInput, best: boolean): readonly IndexInput[] => {
  const floors: readonly End[] = absenceDecides(input) ? [FLOOR, ...SCORABLE_FLOORS] : [FLOOR];
  const ends = best ? [BEST] : floors;
  return ends.flatMap((end) => possibleColumns(input).map((column) => completeAt(input, column, end)));
};

const placesOf = (input: IndexInput, readings: Interpretations): readonly string[] =>
  evaluateIndex(input, readings).figures.notScorable.map(({ what }) => what);

/**
 * Where could what is open be below the scale, besides the places that are so already at the witness of the lower end?
 * Paths under R; empty where every settling has the same places.
 */
export const placesBelow = (
  input: IndexInput,
  readings: Interpretations,
  already: readonly string[],
): readonly string[] => {
  const strict = possibleColumns(input).flatMap((column) => placesOf(completeAt(input, column, STRICT), readings));
  return [...new Set(strict)].filter((place) => !already.includes(place));
};
