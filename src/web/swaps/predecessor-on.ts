import type { ShelfItem } from '../ledger/ledger-client.ts';

/** Which assessment on the shelf is the predecessor that a record names, by its id or its product's name? */
export const predecessorOn = (
  items: readonly Pick<ShelfItem, 'assessment' | 'product'>[],
  name: string,
): string | undefined => {
  const named = items.filter(({ product }) => product === name);
  const byId = items.find(({ assessment }) => assessment === name);
  return byId?.assessment ?? (named.length === 1 ? named[0]?.assessment : undefined);
};
