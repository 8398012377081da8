import type { MissingFact } from '#quantity/explained';

/** What does the record say to one thing that is looked for? `open` where it does not say it well enough. */
export interface Answer {
  readonly is: 'yes' | 'no' | 'open';
  /** What was observed, in words. */
  readonly says: string;
  /** Addresses in the record. */
  readonly facts: readonly string[];
  readonly evidence: readonly string[];
  readonly missing: readonly MissingFact[];
  /** Days on which it was seen, ISO 8601. */
  readonly dates: readonly string[];
}

/** What a fact of the record brings: its address, and what is kept with it. */
export interface Ground {
  readonly address: string;
  readonly evidence?: readonly string[] | undefined;
  readonly date?: string | undefined;
}

const groundsOf = (grounds: readonly Ground[]): Pick<Answer, 'facts' | 'evidence' | 'dates'> => ({
  facts: [...new Set(grounds.map(({ address }) => address))],
  evidence: [...new Set(grounds.flatMap(({ evidence }) => evidence ?? []))],
  dates: [...new Set(grounds.flatMap(({ date }) => date ?? []))].sort(),
});

/** A settled answer with what it rests on. */
export const settledAnswer = (is: boolean, says: string, grounds: readonly Ground[]): Answer => ({
  is: is ? 'yes' : 'no',
  says,
  ...groundsOf(grounds),
  missing: [],
});

/** An open answer: what is known so far, and what is missing. */
export const openAnswer = (says: string, missing: readonly MissingFact[], grounds: readonly Ground[] = []): Answer => ({
  is: 'open',
  says,
  ...groundsOf(grounds),
  missing,
});

const merged = (answers: readonly Answer[], is: Answer['is']): Answer => {
  const unique = <T>(list: readonly T[], key: (item: T) => string): readonly T[] => [
    ...new Map(list.map((item) => [key(item), item])).values(),
  ];
  return {
    is,
    says: [...new Set(answers.map(({ says }) => says).filter(Boolean))].join('; '),
    facts: [...new Set(answers.flatMap(({ facts }) => facts))],
    evidence: [...new Set(answers.flatMap(({ evidence }) => evidence))],
    missing: unique(
      answers.flatMap(({ missing }) => missing),
      ({ address, what }) => `${address}\n${what}`,
    ),
    dates: [...new Set(answers.flatMap(({ dates }) => dates))].sort(),
  };
};

/** Do all hold? A no decides and stands with all other noes; else an open one leaves it open, and is told first. None: yes. */
export const allOf = (answers: readonly Answer[]): Answer => {
  const noes = answers.filter(({ is }) => is === 'no');
  if (noes.length > 0) return merged(noes, 'no');
  const open = answers.filter(({ is }) => is === 'open');
  if (open.length === 0) return merged(answers, 'yes');
  return merged([...open, ...answers.filter(({ is }) => is === 'yes')], 'open');
};

/** Does one hold? A yes decides and stands alone; else one open leaves it open. */
export const anyOf = (answers: readonly Answer[]): Answer => {
  const yes = answers.find(({ is }) => is === 'yes');
  if (yes) return yes;
  return merged(answers, answers.some(({ is }) => is === 'open') ? 'open' : 'no');
};
