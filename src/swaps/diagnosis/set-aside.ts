import type { Explanation } from '../model/explanation.ts';
import { EXPLANATION_WORDS } from '../model/explanation-words.ts';
import { isSurePass } from '../signature/allowed.ts';
import type { Conclusion } from './conclusion.ts';
import type { Finding, Weighed } from './weighing.ts';

/** A run whose effect is not laid to the software, and to what it is laid. */
export interface SetAside {
  readonly run: string;
  readonly why: string;
}

/** Explanations that lay an effect to a piece, a hand, a circumstance or the test, not to the software. */
const NOT_SOFTWARE: readonly Explanation[] = [
  'bad-donor',
  'handling-damage',
  'revision-mismatch',
  'gauge-or-cache',
  'host-not-ready',
  'test-error',
];

/**
 * Which runs' effects are not the software's? Where nothing else is left to explain them: runs in which something was the matter and
 * every explanation still standing lays it to a piece, a hand, a circumstance or the test.
 */
export const setAsideBy = (weighed: Weighed, { standing }: Conclusion): readonly SetAside[] => {
  if (standing.length === 0 || !standing.every(({ explanation }) => NOT_SOFTWARE.includes(explanation))) return [];
  const why = standing.map(({ explanation }) => EXPLANATION_WORDS[explanation].name).join(' or ');
  const rows = weighed.allowed.filter((_, index) => weighed.conflicts[index]?.length === 0);
  const isLaid = (place: number): boolean =>
    isTroubled(weighed.findings[place]) && rows.some((row) => !isSurePass(row[place] ?? []));
  return weighed.runs.filter((_, place) => isLaid(place)).map(({ id }) => ({ run: id, why }));
};

const isTroubled = (finding: Finding | undefined): boolean =>
  finding?.outcome === 'failed' || finding?.outcome === 'reduced';
