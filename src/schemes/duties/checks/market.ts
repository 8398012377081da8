import { parseQuantity } from '#quantity/parse-quantity';
import { inUnit } from '#quantity/quantity';
import { compare, type Rational, rational } from '#quantity/rational';
import type { MARKETS } from '#record/schema/duty-facts';
import { type Answer, openAnswer, settledAnswer } from '../answer.ts';
import type { RowSubject } from '../duty-subject.ts';
import type { MarketCheck } from '../duty-table.ts';

type Market = NonNullable<NonNullable<RowSubject['assessment']['product']['markets']>[(typeof MARKETS)[number]]>;

/** What is known of the product in the row's own jurisdiction? */
const marketOf = ({ assessment, jurisdiction }: RowSubject): Market | undefined =>
  assessment.product.markets?.[jurisdiction as (typeof MARKETS)[number]];

const FIELD_WORDS: Readonly<Record<MarketCheck['field'], string>> = {
  repairMeans: 'parts, tools and documents offered to owners and independent repairers',
  givenToAuthorised: 'the maker gives them to its authorised repairers',
  businessOnly: 'sold by business or government contract only',
};

const openField = (subject: RowSubject, field: string, what: string): Answer =>
  openAnswer(`not on record: ${what}`, [
    {
      address: `product/markets/${subject.jurisdiction}/${field}`,
      what: `${what} (${subject.jurisdiction})`,
      remedy: 'find it out there and record it with its source',
    },
  ]);

const groundOf = (subject: RowSubject, market: Market, field: string) => [
  { address: `product/markets/${subject.jurisdiction}/${field}`, evidence: market.evidence, date: market.date },
];

/** Does a field of the market say what is asked for? Only where the market's facts are established. */
export const marketAnswer = ({ field, is = true }: MarketCheck, subject: RowSubject): Answer => {
  const market = marketOf(subject);
  const value = market?.[field];
  const label = FIELD_WORDS[field];
  if (market === undefined || value === undefined || market.standing !== 'established')
    return openField(subject, field, label);
  return settledAnswer(value === is, `${label}: ${value ? 'yes' : 'no'}`, groundOf(subject, market, field));
};

const inDollars = (price: string | undefined): Rational | undefined => {
  const { quantity } = price === undefined ? {} : parseQuantity(price);
  return quantity ? inUnit(quantity, 'USD')?.exact.value : undefined;
};

/** Does the wholesale price lie in a range [USD]? The lower limit is in it, the upper one not. */
export const priceAnswer = (
  { from, below }: { readonly from: number; readonly below?: number },
  subject: RowSubject,
): Answer => {
  const market = marketOf(subject);
  const price = inDollars(market?.wholesalePrice);
  if (!market || !price) return openField(subject, 'wholesalePrice', 'wholesale price [USD]');
  const inside =
    compare(price, rational(BigInt(from))) >= 0 && (below === undefined || compare(price, rational(BigInt(below))) < 0);
  const range = below === undefined ? `from ${from} USD` : `from ${from} to below ${below} USD`;
  return settledAnswer(
    inside,
    `wholesale price ${market.wholesalePrice}, looked for ${range}`,
    groundOf(subject, market, 'wholesalePrice'),
  );
};

/** For how many years from the last manufacture are parts, tools and documents offered? */
export const yearsAnswer = (atLeast: number, subject: RowSubject): Answer => {
  const market = marketOf(subject);
  const years = market?.offeredYears;
  if (!market || years === undefined || market.standing !== 'established')
    return openField(subject, 'offeredYears', 'years of parts, tools and documents from the last manufacture');
  return settledAnswer(
    years >= atLeast,
    `${years} years from the last manufacture, asked ${atLeast} or more`,
    groundOf(subject, market, 'offeredYears'),
  );
};
