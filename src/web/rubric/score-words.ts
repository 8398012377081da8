import { roundedText } from '#verdict/rubric/exact-text';
import type { CriterionScore } from '#verdict/rubric/score/rubric-score';
import type { BareScore } from './rubric-messages.ts';
import type { SeenScores } from './scores-client.ts';

/** How does a score read in a table? Always with its width, or with the word that it is settled. */
const scoreWords = ({ state, shown }: BareScore): string => {
  if (shown === undefined) return 'no criterion applies';
  return state === 'settled' ? `${shown.low}, settled` : spanOf(shown.low, shown.high);
};

/** What stands in a cell for one of the scores that were asked for? What is not there yet says so. */
export const seenWords = (seen: SeenScores | undefined, index: number): string => {
  if (seen?.problem !== undefined) return 'not scored';
  const score = seen?.scores?.[index];
  return score ? scoreWords(score) : 'being worked out …';
};

/** Points of a criterion at both ends of its own width. */
export const pointsWords = ({ points, applies }: CriterionScore): string => {
  if (!points) return 'does not apply';
  const span = spanOf(roundedText(points.low, 1), roundedText(points.high, 1));
  return applies === 'open' ? `${span}, if it applies` : span;
};

/** What does a criterion add to the score, at both ends of the score's width? */
export const addsWords = ({ atLow, atHigh }: CriterionScore): string => {
  const adds = (end: CriterionScore['atLow']): string => (end ? roundedText(end.contribution, 2) : 'drops out');
  return !atLow && !atHigh ? '' : spanOf(adds(atLow), adds(atHigh));
};

const spanOf = (low: string, high: string): string => (low === high ? low : `${low} to ${high}`);
