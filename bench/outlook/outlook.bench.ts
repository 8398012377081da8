// How long do both ends of every figure take, the ranking of the questions, and one answer, with 150 fasteners and about 200
// open variables? And how many ends are exact? In one run, beside the index of the same record without any of it.
// Usage: npm run bench -- outlook

import { drained } from '../../src/quantity/drained.ts';
import { openQuestions } from '../../src/verdict/bounds/open-questions.ts';
import { type OpenState, openState, withAnswer } from '../../src/verdict/bounds/open-state.ts';
import { searchEnd } from '../../src/verdict/bounds/search-end.ts';
import { groundworkOf, indexBases, readingsOf } from '../../src/verdict/index-bases.ts';
import { rankQuestions } from '../../src/verdict/questions/rank-questions.ts';
import { openProduct } from './open-product.ts';

const SEED = 20_261_125;
/** Of the fifty parts one in 25, with what holds it, was not looked at for what had to be off. */
const UNSEEN_EVERY = 25;
const record = openProduct(SEED, UNSEEN_EVERY);
const readings = readingsOf(record);

const timed = <T>(work: () => T): readonly [milliseconds: number, result: T] => {
  const begun = performance.now();
  const result = work();
  return [performance.now() - begun, result];
};

const [indexMilliseconds] = timed(() => indexBases(groundworkOf(record), readings));
const groundwork = groundworkOf(record);
// Best found is left out: every answer about a class or a trial seeks the routes of all parts anew, seconds each on this product.
const states = (['observed'] as const).flatMap((basis) => openState(basis, groundwork, readings) ?? []);
const variables = new Set(states.flatMap((state) => [...openQuestions(state, 'R')].map(({ id }) => id)));

const endsOf = (state: OpenState) =>
  (['R', 'SDD', 'SF', 'ST', 'SSP', 'SSU', 'SRI'] as const).flatMap((objective) =>
    (['low', 'high'] as const).flatMap((end) => searchEnd(state, { objective, end, limit: 300 }) ?? []),
  );
const measured = states.map((state) => {
  const [endsTook, ends] = timed(() => endsOf(state));
  const [rankTook, ranked] = timed(() => drained(rankQuestions(state)));
  const first = ranked[0]?.variables[0];
  const answer = first?.answers[0];
  const [answerTook] = timed(() => first && answer && withAnswer(state, { variable: first, answer }));
  const exact = ends.filter((end) => end.exact).length;
  return { basis: state.inputs.basis, endsTook, rankTook, answerTook, ranked, exact, ends: ends.length };
});

const row = (what: string, took: number, target: string): string =>
  `| ${what} | ${took.toFixed(0)} | ${(took / indexMilliseconds).toFixed(2)} | ${target} |`;

console.log(`150 fasteners, ${variables.size} open variables with answers, seed ${SEED}.\n`);
console.log('| what | ms | against the index of the same record | target [ms] |\n| --- | --- | --- | --- |');
console.log(row('index on the bases, nothing else', indexMilliseconds, '-'));
for (const { basis, endsTook, rankTook, answerTook, ranked } of measured) {
  console.log(row(`all ends of R and six scores, ${basis}`, endsTook, '1000'));
  console.log(row(`ranking ${ranked.length} questions, ${basis}`, rankTook, '3000'));
  console.log(row(`one answer, ${basis}`, answerTook, '300'));
}
for (const { basis, exact, ends } of measured)
  console.log(`\nExact, ${basis}: ${exact} of ${ends} ends (${((100 * exact) / ends).toFixed(0)} %; target 95 %).`);
