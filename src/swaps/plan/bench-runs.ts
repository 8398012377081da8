import { type BenchSetup, type Choice, never } from './bench-setup.ts';
import type { BenchRun, BenchState } from './bench-state.ts';
import { mayBeLeft, partChoices, tellsNothing, type Where } from './part-choices.ts';
import { isDone } from './untried.ts';

/** A host and the firmware it is to have, by index. */
export interface Seat {
  readonly host: number;
  readonly firmware: number;
}

/**
 * Which hosts can be run on which firmware? Never on an older one than it has; on a newer one only once every part that is not
 * decided had a foreign piece tried, and seen, on what was there: a bug that an update mends would else never be met.
 */
export const seats = (setup: BenchSetup, state: BenchState): readonly Seat[] => {
  const updates = state.parts.every(
    ({ belief }, part) =>
      belief.standing.length <= 1 || belief.triedIn.length > 0 || (setup.parts[part] ?? never()).pieces.length < 2,
  );
  return state.hosts.flatMap(({ firmware, seen }, host) => {
    const newer = setup.problem.firmware.flatMap((_, index) => (index > firmware ? [index] : []));
    return [firmware, ...(updates && seen ? newer : [])].map((version) => ({ host, firmware: version }));
  });
};

/** What may be done with one part in a run; `undefined` among them is to leave it as it is. */
export const optionsOf = (setup: BenchSetup, state: BenchState, where: Where): readonly (Choice | undefined)[] => {
  const choices = partChoices(setup, state, where);
  if (!state.hosts[where.host]?.seen) return choices;
  if (!mayBeLeft(state, where)) return choices;
  return isDone(setup, where.part, (state.parts[where.part] ?? never()).belief)
    ? [undefined]
    : [undefined, ...choices.filter((choice) => !tellsNothing(setup, state, { ...where, choice }))];
};

/**
 * Which runs can be made now? All of them: their count is the product of the parts' options, so for few parts only. A run that
 * can tell nothing of any part is left out, and one that fits together all parts of a run that stopped.
 */
export const benchRuns = (setup: BenchSetup, state: BenchState): readonly BenchRun[] =>
  seats(setup, state).flatMap((seat) => {
    let runs: (Choice | undefined)[][] = [[]];
    for (const part of state.parts.keys()) {
      const options = optionsOf(setup, state, { part, ...seat });
      runs = runs.flatMap((run) => options.map((option) => [...run, option]));
    }
    const made = runs.map((choices) => ({ ...seat, choices }));
    return made.filter((run) => mayBeMade(setup, state, run));
  });

/** Does a run tell anything, and does it keep apart what may not be fitted together again? */
export const mayBeMade = (setup: BenchSetup, state: BenchState, run: BenchRun): boolean => {
  if (!state.hosts[run.host]?.seen) return true;
  const foreign = new Set(run.choices.flatMap((choice, part) => (choice && choice.piece !== run.host ? [part] : [])));
  if (state.hidden.some((pool) => pool.every((part) => foreign.has(part)))) return false;
  return run.choices.some(
    (choice, part) => choice && !tellsNothing(setup, state, { part, host: run.host, firmware: run.firmware, choice }),
  );
};
