import type { ShelfItem } from '../ledger/ledger-client.ts';

/** How is an assessment called in one line? Two of one product are told apart by their titles. */
export const nameOf = ({ product, assessment, title }: ShelfItem): string =>
  [product || assessment, title].filter((word) => word !== undefined && word !== '').join(' · ');
