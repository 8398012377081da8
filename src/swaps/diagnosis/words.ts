import { listed, sentence } from '#quantity/counts';
import { EXPLANATION_WORDS } from '../model/explanation-words.ts';
import type { Conclusion } from './conclusion.ts';
import { EFFECT_WORDS } from './effect-words.ts';
import type { AfterStep, EffectOnFirmware, TestedLevel } from './effects.ts';

/** What is the verdict on a part, at the level tested? The effect on each firmware, newest first, then the cause apart from it. */
export const verdictWords = (effects: readonly EffectOnFirmware[], conclusion: Conclusion): string =>
  [...effects.toReversed().map(effectWords), causeWords(conclusion)].join(' ');

/** What did foreign pieces show on one firmware version, and how widely was it tested? */
const effectWords = ({ firmware, code, isReproduced, level, afterSteps }: EffectOnFirmware): string => {
  const on = firmware === undefined ? 'on firmware not recorded' : `on firmware ${firmware}`;
  if (code === undefined) return `${sentence(on)}, no run tells what a foreign piece does.`;
  const times = code === 'E7' ? reproducedWords(isReproduced) : timesWords(level);
  const where = [hostsWords(level), on, directionWords(level), times].filter((words) => words !== '');
  const plain = `${sentence(where.join(', '))}: a foreign piece ${EFFECT_WORDS[code]} (${code}).`;
  return [plain, ...afterSteps.map(afterWords)].join(' ');
};

const STEP_WORDS: Readonly<Record<AfterStep['step'], string>> = {
  authorised: 'Once authorised',
  'identity-moved': 'With the own identity moved onto it',
  calibrated: 'Once calibrated',
};

const afterWords = ({ step, code }: AfterStep): string => `${STEP_WORDS[step]}, it ${EFFECT_WORDS[code]} (${code}).`;

/** What is the cause, as far as it is known? */
const causeWords = ({ standing, decided }: Conclusion): string => {
  if (decided === 'accepted') return 'Nothing is the matter: foreign pieces are taken like the own one.';
  if (decided) return `Cause: ${EXPLANATION_WORDS[decided].name}. ${EXPLANATION_WORDS[decided].says}`;
  const [first] = standing;
  if (!first) return 'Cause undecided: no single explanation agrees with every run.';
  const names = standing.map(({ explanation }) => EXPLANATION_WORDS[explanation].name);
  return `Cause undecided: ${listed(names)} ${standing.length === 1 ? 'stands, but no foreign piece was seen' : 'stand'}.`;
};

const hostsWords = ({ hosts }: TestedLevel): string => {
  if (hosts.length <= 1) return 'in the one specimen tested';
  return hosts.length === 2 ? 'in both specimens tested' : `in all ${hosts.length} specimens tested`;
};

const DIRECTION_WORDS: Readonly<Record<TestedLevel['directions'], string>> = {
  both: 'in both directions',
  one: 'in one direction',
  spares: 'with pieces from elsewhere',
};

const directionWords = ({ directions }: TestedLevel): string => DIRECTION_WORDS[directions];

/** How often in each specimen? */
const timesWords = ({ timesInEach: times, hosts }: TestedLevel): string => {
  if (times === 0) return 'though not in each of them';
  if (times === 1) return hosts.length > 1 ? 'seen once in each' : 'seen once';
  return times === 2 ? 'reproduced twice' : `reproduced ${times} times`;
};

const reproducedWords = (isReproduced: boolean): string => (isReproduced ? 'reproduced' : 'seen once');
