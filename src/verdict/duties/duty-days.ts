import type { Assessment } from '#record/schema/assessment';
import type { DateTest } from '#schemes/duties/duty-table';
import { DUTY_TABLES } from '#schemes/duties/duty-tables';

/**
 * From which days does a duty hold, and which days of the product were held against them? One line a test of the row or of its law, in
 * their order; none where the law names no day. `id` is that of the row; a row that is in no table has no days.
 */
export const dutyDays = (id: string, product?: Assessment['product']): readonly string[] =>
  DUTY_TABLES.flatMap((table) =>
    table.rows.flatMap((row) =>
      row.id === id ? (row.dates ?? table.dates ?? []).map((test) => dayWords(test, table.jurisdiction, product)) : [],
    ),
  );

const dayWords = (test: DateTest, market: string, product: Assessment['product'] | undefined): string => {
  const own = Object.entries(test.fromFor ?? {}).map(([category, day]) => `${category.replaceAll('-', ' ')} ${day}`);
  const general = test.after === undefined ? `from ${test.from ?? ''}` : `after ${test.after}`;
  const limit = own.length === 0 ? general : `${general}, ${own.join(', ')}`;
  const stated = product && daysOf(test, market, product);
  return `${DECIDES[test.decides](market)} ${limit}${stated === undefined ? '' : ` (${stated})`}`;
};

const DECIDES: Readonly<Record<DateTest['decides'], (market: string) => string>> = {
  placed: () => 'units placed on the market',
  made: () => 'first made',
  sold: (market) => `first sold or used in ${market}`,
  conduct: () => 'what was seen, seen',
};

/** Which day of the product was held against the test? Undefined where the test looks at the day of what was seen. */
const daysOf = ({ decides }: DateTest, market: string, product: Assessment['product']): string | undefined => {
  const { firstPlaced, endOfPlacing, firstMade } = product;
  if (decides === 'conduct') return undefined;
  if (decides === 'made') return `first made: ${firstMade ?? 'not on record'}`;
  if (decides === 'placed')
    return `first placed: ${firstPlaced ?? 'not on record'}${endOfPlacing === undefined ? '' : `, placing until ${endOfPlacing}`}`;
  const markets: Readonly<Record<string, { readonly firstSold?: string | undefined } | undefined>> =
    product.markets ?? {};
  return `first sold: ${markets[market]?.firstSold ?? 'not on record'}`;
};
