import { withLaboratory } from '#verdict/laboratory/with-laboratory';
import { type QuestionBasis, questionBasis, rankedQuestions } from '#verdict/outlook/ranked-questions';
import { type GivenOdds, readOdds } from '#verdict/questions/read-odds';
import { inWords } from './answer-request.ts';
import type { OddsAnswer, OddsRequest } from './engine-messages.ts';

/**
 * What does the engine say when asked about odds? The reading and the ranking of `unfasten questions --odds`, on the basis the
 * outlook ranks by. Odds of a question that is not open, or not any more, are left aside with a warning at their place.
 */
export const answerOdds = ({ generation, of, document, laboratory, odds }: OddsRequest): OddsAnswer => {
  const head = { generation, of, odds };
  try {
    const basis = questionBasis(withLaboratory(document, laboratory));
    const file = { fileName: odds.fileName, bytes: new TextEncoder().encode(odds.text) };
    const { odds: read, problems } = readOdds(file, basis?.open ?? new Map(), { notOpen: 'warning' });
    if (!read) return { ...head, problems };
    const { by, reason, weights } = read;
    const given = { by, ...(reason === undefined ? {} : { reason }), weights };
    return { ...head, problems, given, ...(basis ? rankedBy(basis, read) : {}) };
  } catch (error) {
    return { ...head, problems: [], trouble: inWords(error) };
  }
};

/** Odds that are sound may still have too many mixtures, or none that can be: what was read stands beside the reason. */
const rankedBy = (basis: QuestionBasis, { questions }: GivenOdds): Pick<OddsAnswer, 'list' | 'trouble'> => {
  if (Object.keys(questions).length === 0) return {};
  try {
    return { list: rankedQuestions(basis, questions) };
  } catch (error) {
    return { trouble: inWords(error) };
  }
};
