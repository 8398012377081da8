import type { MARKETS } from '#record/schema/duty-facts';
import { type Answer, openAnswer, settledAnswer } from './answer.ts';
import { laterBy } from './day.ts';
import type { RowSubject } from './duty-subject.ts';
import type { DateTest } from './duty-table.ts';

/** From which day does a test hold for this product, and is the day itself in it? */
const limitOf = (
  test: DateTest,
  category: string | undefined,
): { readonly day: string; readonly included: boolean } => {
  const own = test.fromFor?.[category ?? ''];
  if (own !== undefined) return { day: own, included: true };
  return test.after === undefined ? { day: test.from ?? '', included: true } : { day: test.after, included: false };
};

type Limit = ReturnType<typeof limitOf>;

const reaches = (day: string, limit: Limit): boolean => (limit.included ? day >= limit.day : day > limit.day);

const limitWords = ({ day, included }: Limit): string => (included ? `from ${day}` : `after ${day}`);

const missingDay = (address: string, what: string) => ({
  address,
  what,
  remedy: 'find the day and record it with its source',
});

/** Were, or are, units placed on the market from the day on? The first placing decides, else the last. */
const placedAnswer = (limit: Limit, { assessment }: RowSubject): Answer => {
  const { firstPlaced, endOfPlacing } = assessment.product;
  const holds = `it holds for units placed ${limitWords(limit)}`;
  const first = { address: 'product/firstPlaced' };
  const last = { address: 'product/endOfPlacing' };
  if (firstPlaced !== undefined && reaches(firstPlaced, limit))
    return settledAnswer(true, `first placed on the market ${firstPlaced}`, [first]);
  if (endOfPlacing !== undefined && !reaches(endOfPlacing, limit))
    return settledAnswer(false, `last placed on the market ${endOfPlacing}; ${holds}`, [last]);
  if (endOfPlacing !== undefined) return settledAnswer(true, `${holds}; placing goes on until ${endOfPlacing}`, [last]);
  if (firstPlaced === undefined)
    return openAnswer(`day of the first placing not on record; ${holds}`, [
      missingDay('product/firstPlaced', 'day the first unit was placed on the Union market'),
    ]);
  const what = `whether units are placed on the market ${limitWords(limit)}`;
  return openAnswer(`first placed ${firstPlaced}; ${holds}`, [missingDay('product/endOfPlacing', what)], [first]);
};

const dayAnswer = (
  day: string | undefined,
  limit: Limit,
  { address, verb }: { readonly address: string; readonly verb: string },
): Answer => {
  const holds = `it holds for products ${verb} ${limitWords(limit)}`;
  if (day === undefined)
    return openAnswer(`day not on record; ${holds}`, [missingDay(address, `day the model was ${verb}`)]);
  const is = reaches(day, limit);
  return settledAnswer(is, is ? `${verb} ${day}` : `${verb} ${day}; ${holds}`, [{ address }]);
};

/** Does the product's day lie where the law holds? Days compare as ISO 8601 text; a day before it gives no, an unknown one open. */
export const dateAnswer = (test: DateTest, subject: RowSubject): Answer => {
  const { product } = subject.assessment;
  const limit = limitOf(test, product.category);
  if (test.decides === 'placed') return placedAnswer(limit, subject);
  if (test.decides === 'made')
    return dayAnswer(product.firstMade, limit, { address: 'product/firstMade', verb: 'first made' });
  const market = product.markets?.[subject.jurisdiction as (typeof MARKETS)[number]];
  const address = `product/markets/${subject.jurisdiction}/firstSold`;
  return dayAnswer(market?.firstSold, limit, { address, verb: `first sold or used in ${subject.jurisdiction}` });
};

/**
 * Was what was seen seen at a time when the law held? A settled answer whose days all lie before it is turned into
 * `before`; without a day it is open.
 */
export const conductAnswer = (answer: Answer, test: DateTest, category: string | undefined): Answer | 'before' => {
  if (answer.is === 'open') return answer;
  const limit = limitOf(test, category);
  const latest = answer.dates.at(-1);
  if (latest === undefined)
    return {
      ...answer,
      is: 'open',
      says: `${answer.says}; the day it was seen is not on record`,
      missing: [missingDay(answer.facts[0] ?? 'product', `the day it was seen; the law holds ${limitWords(limit)}`)],
    };
  return reaches(latest, limit) ? answer : 'before';
};

/** From which day does a duty to offer hold, if it begins some months after the first placing? Undefined where that is not known. */
export const beginningOf = (months: number, law: string, firstPlaced: string | undefined): string | undefined => {
  if (firstPlaced === undefined) return undefined;
  const later = laterBy(firstPlaced, { months });
  return later > law ? later : law;
};

/** A no that was seen before the duty began, or on a day not known, is open: it has to be seen again. */
export const onceBegun = (answer: Answer, beginning: string | undefined): Answer => {
  if (answer.is !== 'no') return answer;
  const latest = answer.dates.at(-1);
  if (latest !== undefined && beginning !== undefined && latest >= beginning) return answer;
  const when = latest === undefined ? 'on a day not on record' : `on ${latest}`;
  const since = beginning === undefined ? 'begins a while after the first placing' : `begins on ${beginning}`;
  return {
    ...answer,
    is: 'open',
    says: `${answer.says}; seen ${when}, and the duty ${since}`,
    missing: [
      missingDay(answer.facts[0] ?? 'product', 'the same, seen again once the duty has begun'),
      ...answer.missing,
    ],
  };
};
