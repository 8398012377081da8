import type { ShelfItem } from '../ledger/ledger-client.ts';

/** By what the shelf can be ordered. */
export type ShelfOrder = 'product' | 'category' | 'state' | 'changed';

/** What is looked for on the shelf, and how what is found is ordered. */
export interface ShelfView {
  readonly search: string;
  readonly order: ShelfOrder;
  readonly descending: boolean;
}

/** Which assessments stand on the shelf, in which order? Every word looked for has to occur; ties go by id. */
export const shelfRows = (
  items: readonly ShelfItem[],
  { search, order, descending }: ShelfView,
): readonly ShelfItem[] => {
  const words = plain(search).split(/\s+/).filter(Boolean);
  const found = items.filter((item) => {
    const text = plain([item.product, item.title, item.category, item.assessment].filter(Boolean).join(' '));
    return words.every((word) => text.includes(word));
  });
  const turn = descending ? -1 : 1;
  return found.sort(
    (a, b) => turn * compare(sortValue(a, order), sortValue(b, order)) || compare(a.assessment, b.assessment),
  );
};

/** Capitals and accents make no difference to somebody who looks for a word. */
const plain = (text: string): string => text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();

const sortValue = (item: ShelfItem, order: ShelfOrder): string | number =>
  order === 'changed' ? Date.parse(item.changed) : plain(item[order] ?? '');

const compare = (a: string | number, b: string | number): number => (a < b ? -1 : a > b ? 1 : 0);
