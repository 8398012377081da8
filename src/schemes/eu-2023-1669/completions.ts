import { evaluateIndex } from './evaluate-index.ts';
import { absenceDecides, BEST, completeAt, type End, FLOOR, SCORABLE_FLOORS, STRICT } from './fill-open.ts';
import type { IndexInput } from './input.ts';
import { DEFAULT_INTERPRETATIONS, type Interpretations } from './interpretations.ts';

/** An input with every open finding settled one way, and whether settling them could leave no score at all. */
export interface Completion {
  readonly input: IndexInput;
  /** True where some settling of what is open is below the scale, though the numbers here are not. */
  readonly includesNotScorable: boolean;
  /** Which places would be below the scale then, as paths under R such as `SF/battery` or `SSU`. */
  readonly placesNotScorable: readonly string[];
}

/** Which weight columns are still possible? */
const possibleColumns = (input: IndexInput): readonly boolean[] =>
  input.foldable.state === 'known' ? [input.foldable.value] : [false, true];

/** Which completions may be the extreme one? One an open weight column, and two where absence decides whether R exists. */
export const candidatesFor = (input: IndexInput, best: boolean): readonly IndexInput[] => {
  const floors: readonly End[] = absenceDecides(input) ? [FLOOR, ...SCORABLE_FLOORS] : [FLOOR];
  const ends = best ? [BEST] : floors;
  return ends.flatMap((end) => possibleColumns(input).map((column) => completeAt(input, column, end)));
};

const scorable = (input: IndexInput, readings: Interpretations): number | undefined => {
  const { tree } = evaluateIndex(input, readings);
  return tree.value.kind === 'decimal' ? tree.value.scaled : undefined;
};

const extreme = (inputs: readonly IndexInput[], readings: Interpretations, sign: 1 | -1): IndexInput => {
  const [only] = inputs;
  if (only && inputs.length === 1) return only;
  const ranked = inputs.map((input) => ({ input, r: scorable(input, readings) }));
  return ranked.reduce(
    (chosen, next) => {
      if (next.r === undefined) return chosen;
      return chosen.r === undefined || sign * next.r > sign * chosen.r ? next : chosen;
    },
    ranked[0] as (typeof ranked)[number],
  ).input;
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

/** Which completion has the lowest R, or the highest? */
const witnessOf = (input: IndexInput, readings: Interpretations, best: boolean): IndexInput =>
  extreme(candidatesFor(input, best), readings, best ? 1 : -1);

const completed = (input: IndexInput, readings: Interpretations, best: boolean): Completion => {
  const lowest = witnessOf(input, readings, false);
  const placesNotScorable = placesBelow(input, readings, placesOf(lowest, readings));
  return {
    input: best ? witnessOf(input, readings, true) : lowest,
    includesNotScorable: placesNotScorable.length > 0,
    placesNotScorable,
  };
};

/**
 * What is the lowest that what is open could still make of it? Every open finding that decides a score takes the value of
 * the lowest score *on* the scale (steps without bound, removable, commercially available, present, 1 point on each
 * ladder), so that R is a number; `includesNotScorable` says where the truth could be below the scale instead. A part that
 * may be absent, and would be below the scale if it were there, is taken as absent where nothing else gives a number. An open
 * weight column takes the one with the lower R. The pairing share of steps decides no score and is left as it is.
 */
export const worstCompletion = (input: IndexInput, readings: Interpretations = DEFAULT_INTERPRETATIONS): Completion =>
  completed(input, readings, false);

/**
 * What is the highest that what is open could still make of it? One step, reusable, no tool, absent where absence is open,
 * everything offered to everybody free, seven years; an open weight column takes the one with the higher R.
 */
export const bestCompletion = (input: IndexInput, readings: Interpretations = DEFAULT_INTERPRETATIONS): Completion =>
  completed(input, readings, true);
