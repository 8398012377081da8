import { describe, expect, it } from 'vitest';
import { isClose } from '#quantity/close';
import { drained } from '#quantity/drained';
import { rational, toNumber } from '#quantity/rational';
import type { Assessment } from '#record/schema/assessment';
import { openQuestions } from '#verdict/bounds/open-questions';
import { openState } from '#verdict/bounds/open-state';
import { scaledFigure } from '#verdict/bounds/scaled-figure';
import { groundworkOf, readingsOf } from '#verdict/index-bases';
import { lettersOf } from '#verdict/letters';
import { applyAnswer } from '#verdict/open/apply-answer';
import type { OpenVariable } from '#verdict/open/open-variable';
import type { AnswerOdds } from '#verdict/questions/expected-narrowing';
import { informationValue } from '#verdict/questions/information-value';
import { letterOutcomes } from '#verdict/questions/letter-outcomes';
import { DEFAULT_MINUTES, type RankedQuestion, rankQuestions, type Span } from '#verdict/questions/rank-questions';
import { SeededRandom } from '../faults/seeded-random.ts';
import { basisOf } from '../records/small-record.ts';
import { share } from '../share.ts';
import { drawRecord } from './drawn-record.ts';

const RECORDS = share(4, 400);

const drawnBy = (seed: number): (() => number) => {
  const stream = new SeededRandom(seed);
  return () => stream.below(2 ** 20) / 2 ** 20;
};

const stateOf = (record: Assessment) => {
  const state = openState('best', groundworkOf(record), readingsOf(record));
  if (!state) throw new RangeError('the record has nothing for best found');
  return state;
};

const ranked = (record: Assessment): readonly RankedQuestion[] => drained(rankQuestions(stateOf(record)));

/** The width of R by the ordinary engine, from the record alone. */
const spanByEngine = (record: Assessment): { low: number | undefined; high: number | undefined } => {
  const basis = basisOf(record, 'best');
  return {
    low: scaledFigure(basis.low ?? basis.figures, 'R'),
    high: scaledFigure(basis.high ?? basis.figures, 'R'),
  };
};

const chancesOf = (ids: readonly string[], weights: readonly number[]): AnswerOdds => {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return Object.fromEntries(ids.map((id, index) => [id, rational(BigInt(weights[index] ?? 0), BigInt(sum))]));
};

interface Mixture {
  readonly chance: number;
  readonly answers: readonly string[];
  readonly letter: string | undefined;
}

/** Every mixture of answers by definition: the last question first, the ordinary engine at the end. */
const mixturesByHand = (
  record: Assessment,
  asked: readonly OpenVariable[],
  weights: readonly (readonly number[])[],
): readonly Mixture[] => {
  const [question, own] = [asked.at(-1), weights.at(-1) ?? []];
  if (!question) return [{ chance: 1, answers: [], letter: soleLetter(record) }];
  const here = [...openQuestions(stateOf(record), 'R')].find(({ id }) => id === question.id);
  const sum = own.reduce((total, weight) => total + weight, 0);
  return question.answers.flatMap(({ id }, at) => {
    const changed = here?.answers.find((candidate) => candidate.id === id);
    if (here && !changed) throw new RangeError('drawn records keep the answers of their questions');
    const next = changed ? applyAnswer(record, changed) : record;
    return mixturesByHand(next, asked.slice(0, -1), weights.slice(0, -1)).map(({ chance, answers, letter }) => ({
      chance: chance * ((own[at] ?? 0) / sum),
      answers: [...answers, id],
      letter,
    }));
  });
};

const bestChance = (mixtures: readonly Mixture[]): number => {
  const sums = new Map<string, number>();
  for (const { letter, chance } of mixtures) if (letter) sums.set(letter, (sums.get(letter) ?? 0) + chance);
  return Math.max(0, ...sums.values());
};

/** What questions are ranked by, each a minute, most weighty first. */
const rankKeys = ({
  minutes,
  guaranteed,
  guaranteedSteps,
  information,
  expected,
}: RankedQuestion): readonly number[] => [
  guaranteed / minutes,
  guaranteedSteps / minutes,
  information ? (toNumber(information.informed) - toNumber(information.now)) / minutes : 0,
  expected ? toNumber(expected) / minutes : 0,
];

const soleLetter = (record: Assessment): string | undefined => {
  const basis = basisOf(record, 'best');
  const letters = lettersOf(basis, readingsOf(record));
  if (letters.length === 0) return 'none';
  return letters.length === 1 && !basis.mayBeNotScorable ? letters[0] : undefined;
};

const widthOf = ({ low, high }: Pick<Span, 'low' | 'high'> | ReturnType<typeof spanByEngine>): number =>
  low === undefined || high === undefined ? 0 : high - low;

describe('rankQuestions', { timeout: 3_600_000 }, () => {
  it(`puts first what brute force finds best, over ${RECORDS} drawn records`, () => {
    let asked = 0;
    for (let seed = 1; seed <= RECORDS; seed++) {
      const { open } = drawRecord(drawnBy(900_000 + seed));
      const now = widthOf(spanByEngine(open));
      const all = ranked(open);
      const single = all.filter(({ variables }) => variables.length === 1 && variables[0]?.covers !== false);
      const covered = [...openQuestions(stateOf(open), 'R')].filter(({ covers }) => covers !== false);
      const byHand = covered.map((variable) => {
        const after = variable.answers.map((answer) => widthOf(spanByEngine(applyAnswer(open, answer))));
        return { id: variable.id, guaranteed: now - Math.max(...after), minutes: DEFAULT_MINUTES[variable.touches] };
      });
      asked += byHand.length;
      const found = Object.fromEntries(single.map((one) => [one.variables[0]?.id, one.guaranteed]));
      expect(found, `seed ${seed}`).toEqual(Object.fromEntries(byHand.map((one) => [one.id, one.guaranteed])));
      const most = Math.max(0, ...byHand.map(({ guaranteed, minutes }) => guaranteed / minutes));
      const first = all[0];
      if (first && most > 0) expect(first.guaranteed / first.minutes, `seed ${seed}`).toBe(most);
    }
    expect(asked).toBeGreaterThan(RECORDS);
  });

  it(`values an answer by odds as summing over all answers does, over ${RECORDS} drawn records`, () => {
    let [worth, decided] = [0, 0];
    for (let seed = 1; seed <= RECORDS; seed++) {
      const random = drawnBy(970_000 + seed);
      const { open } = drawRecord(random);
      const state = stateOf(open);
      const asked = [...openQuestions(state, 'R')].filter(({ answers }) => answers.length <= 4).slice(0, 2);
      const weights = asked.map(({ answers }) => answers.map(() => 1 + Math.floor(random() * 4)));
      const odds = Object.fromEntries(
        asked.map(({ id, answers }, index) => [
          id,
          chancesOf(
            answers.map((answer) => answer.id),
            weights[index] ?? [],
          ),
        ]),
      );
      const outcomes = drained(letterOutcomes(state, odds));
      const byHand = mixturesByHand(open, asked, weights);
      for (const [index, { id, answers }] of asked.entries()) {
        const { now, informed } = informationValue(outcomes, [id]);
        const parts = answers.map((answer) => byHand.filter((one) => one.answers[index] === answer.id));
        const best = parts.reduce((sum, part) => sum + bestChance(part), 0);
        expect(isClose(toNumber(now), bestChance(byHand), { abs: 1e-12 }), `seed ${seed}, ${id}`).toBe(true);
        expect(isClose(toNumber(informed), best, { abs: 1e-12 }), `seed ${seed}, ${id}`).toBe(true);
        worth += informed.numerator > 0n ? 1 : 0;
      }
      const list = drained(rankQuestions(state, { odds, outcomes }));
      for (const { variables, information } of list)
        expect(information === undefined, `seed ${seed}`).toBe(variables.some(({ id }) => odds[id] === undefined));
      const keys = list.map(rankKeys);
      for (const [index, later] of keys.slice(1).entries()) {
        const differs = later.findIndex((value, at) => !isClose(value, keys[index]?.[at] ?? 0, { abs: 1e-9 }));
        if (differs < 0) continue;
        expect(keys[index]?.[differs], `seed ${seed}, place ${index + 2}`).toBeGreaterThan(later[differs] ?? 0);
        decided += differs > 1 ? 1 : 0;
      }
    }
    expect([worth > 0, decided > 0]).toEqual([true, true]);
  });

  it(`never widens by an answer, over ${RECORDS} drawn records`, () => {
    for (let seed = 1; seed <= RECORDS; seed++) {
      const { open } = drawRecord(drawnBy(950_000 + seed));
      const before = spanByEngine(open);
      for (const { effects, variables } of ranked(open))
        for (const { span, answer } of effects) {
          const where = `seed ${seed}, ${variables.map(({ id }) => id).join(' & ')} = ${answer.id}`;
          if (span.low === undefined || span.high === undefined) continue;
          expect(span.low, where).toBeGreaterThanOrEqual(before.low ?? 0);
          expect(span.high, where).toBeLessThanOrEqual(before.high ?? 50_000);
        }
    }
  });
});
