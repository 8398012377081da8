import { toNumber } from '#quantity/rational';
import type { PlacedItem, Rescoring } from '#verdict/rescore/rescoring';
import { FACTORS } from '#verdict/rescore/split-change';
import { exactValue } from '#verdict/rubric/exact-text';
import { type CsvCell, csvLine } from '../export/csv.ts';

const ENDS = ['low', 'high'] as const;

const header: readonly string[] = [
  'record',
  'product',
  ...['before', 'after'].flatMap((when) => [
    `lowest score ${when}`,
    `highest score ${when}`,
    `may have no score ${when}`,
    `best place ${when}`,
    `worst place ${when}`,
  ]),
  ...['lowest', 'highest'].flatMap((end) => [
    `change of the ${end} score`,
    ...FACTORS.map((factor) => `of it by ${factor}`),
  ]),
  'where it fails',
  'what is wrong',
  'what to do',
];

/**
 * How does a rescoring read for spreadsheets? CSV (RFC 4180), one line a record, then one for each that failed; line by line.
 * Figures are the decimals nearest to the exact ones, which the JSON has.
 */
export function* renderRescoringCsv({ items, failed }: Rescoring): Generator<string, void> {
  const empty: readonly CsvCell[] = Array.from({ length: header.length - 4 }, () => undefined);
  yield csvLine(header);
  for (const item of items) yield csvLine(itemRow(item));
  for (const { item, where, message, remedy } of failed) yield csvLine([item, ...empty, where, message, remedy]);
}

function itemRow(item: PlacedItem): readonly CsvCell[] {
  const { before, after, placeBefore, placeAfter } = item;
  const scores = [[before, placeBefore] as const, [after, placeAfter] as const].flatMap(
    ([score, place]): readonly CsvCell[] => [
      number(score.low),
      number(score.high),
      score.mayBeNone,
      place?.best,
      place?.worst,
    ],
  );
  const parts = ENDS.flatMap((end) => ['change' as const, ...FACTORS].map((name) => number(item[end]?.[name])));
  return [item.item, item.product, ...scores, ...parts, undefined, undefined, undefined];
}

function number(exact: string | undefined): number | undefined {
  return exact === undefined ? undefined : toNumber(exactValue(exact));
}
