import type { StoredChange } from '#store/ledger';

/** At which session times [s] do changes add entries? In the order of the ledger. */
export const markTimes = (changes: readonly StoredChange[]): readonly number[] =>
  changes.flatMap(({ patch }) =>
    patch.flatMap((operation) => {
      if (operation.op !== 'add' || !/^\/sessions\/[^/]+\/entries\/[^/]+$/.test(operation.path)) return [];
      const { at } = operation.value as { readonly at?: unknown };
      return typeof at === 'number' ? [at] : [];
    }),
  );
