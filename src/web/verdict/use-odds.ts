import { useEffect, useMemo, useState, useSyncExternalStore } from 'react';
import { hasErrors, type Problem } from '#record/problem';
import type { Assessment } from '#record/schema/assessment';
import type { OddsAnswer, OddsText } from '../engine/engine-messages.ts';
import { documentNumber, useOddsRanking } from '../engine/use-odds-ranking.ts';
import { keepOdds, keptOddsText, oddsOfText, subscribeOdds } from './kept-odds.ts';
import type { OddsHead } from './odds-text.ts';
import type { TypedWeights } from './weight-faults.ts';

/** Larger files are not looked into: odds of every question there is are a small part of it [bytes]. */
const MOST_BYTES = 200_000;

/** Why a file of odds was not taken. */
export interface RefusedOdds {
  readonly fileName: string;
  readonly words?: string;
  readonly problems: readonly Problem[];
}

/** Somebody's odds of answers on this screen, and what can be done with them. */
export interface Odds {
  readonly kept: OddsText | undefined;
  /** The odds as they were read for the document of the questions, and the questions ranked by them. */
  readonly given?: OddsAnswer['given'];
  readonly list?: OddsAnswer['list'];
  /** What is wrong with the kept odds, or left aside of them; why there is no ranking by them. */
  readonly problems: readonly Problem[];
  readonly trouble?: string | undefined;
  readonly refused: RefusedOdds | undefined;
  readonly busy: boolean;
  /** Gives one question odds, or other ones. */
  readonly give: (question: string, weights: TypedWeights, head: OddsHead) => Promise<void>;
  /** Takes the odds of some questions away. */
  readonly takeAway: (questions: readonly string[]) => Promise<void>;
  /** Takes all away. */
  readonly clear: () => void;
  /** Takes a file in the place of what is kept, once it was read without a fault. */
  readonly load: (file: File) => Promise<void>;
}

/** Odds of answers to the questions of `askedOf`, the document the outlook is of; kept in this browser, not in the record. */
export const useOdds = (assessment: string, askedOf: Assessment | undefined): Odds => {
  const text = useSyncExternalStore(subscribeOdds, () => keptOddsText(assessment));
  const kept = useMemo(() => oddsOfText(text), [text]);
  const [tried, setTried] = useState<OddsText>();
  const [refused, setRefused] = useState<RefusedOdds>();
  const { answer, busy } = useOddsRanking(askedOf, tried ?? kept);
  useEffect(() => {
    if (!tried || !isOf(answer, tried)) return;
    setTried(undefined);
    if (hasErrors(answer.problems)) setRefused({ fileName: tried.fileName, problems: answer.problems });
    else keepOdds(assessment, tried);
  }, [assessment, tried, answer]);
  const isCurrent = !busy && askedOf !== undefined && isOf(answer, kept) && answer.of === documentNumber(askedOf);
  const keep = (next: OddsText | undefined) => {
    setRefused(undefined);
    keepOdds(assessment, next);
  };
  return {
    kept,
    problems: [],
    ...(isCurrent ? shownOf(answer) : {}),
    refused,
    busy: busy && (tried ?? kept) !== undefined,
    give: async (question, weights, head) => {
      const { textWithOdds } = await import('./odds-text.ts');
      keep(textWithOdds(oddsOfText(keptOddsText(assessment)), head, [question, weights]));
    },
    takeAway: async (questions) => {
      const { textWithoutOdds } = await import('./odds-text.ts');
      const now = oddsOfText(keptOddsText(assessment));
      keep(now && textWithoutOdds(now, questions));
    },
    clear: () => keep(undefined),
    load: async (file) => {
      setRefused(undefined);
      if (file.size <= MOST_BYTES) return setTried({ fileName: file.name, text: await file.text() });
      const words = `It is larger than ${MOST_BYTES / 1000} kB.`;
      setRefused({ fileName: file.name, words, problems: [] });
    },
  };
};

const isOf = (answer: OddsAnswer | undefined, odds: OddsText | undefined): answer is OddsAnswer =>
  answer !== undefined && answer.odds.text === odds?.text && answer.odds.fileName === odds.fileName;

const shownOf = ({
  given,
  list,
  problems,
  trouble,
}: OddsAnswer): Pick<Odds, 'problems' | 'given' | 'list' | 'trouble'> => ({
  problems,
  trouble,
  ...(given ? { given } : {}),
  ...(list ? { list } : {}),
});
