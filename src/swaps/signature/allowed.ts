import type { Outcome } from '../model/swap-run.ts';

/** Which outcomes may a run show if a suspicion is true? Never empty; `unseen` is no outcome that anything predicts. */
export type Allowed = readonly Exclude<Outcome, 'unseen'>[];

/** As with the own part, no trace. */
export const PASSED: Allowed = ['passed'];
/** By degree and no worse. */
export const REDUCED: Allowed = ['reduced'];
/** With a trace, by degree or outright. */
export const TROUBLED: Allowed = ['reduced', 'failed'];
/** As with the own part, or by degree. */
export const PASSED_OR_REDUCED: Allowed = ['passed', 'reduced'];
/** The suspicion says nothing of the run. */
export const ANYTHING: Allowed = ['passed', 'reduced', 'failed'];

/** Does what a run showed agree with what a suspicion allows? A run that showed nothing agrees with everything. */
export const agrees = (allowed: Allowed, outcome: Outcome): boolean =>
  outcome === 'unseen' || allowed.includes(outcome);

/** Does a suspicion say of a run that nothing can have been the matter in it? */
export const isSurePass = (allowed: Allowed): boolean => allowed.length === 1 && allowed[0] === 'passed';
