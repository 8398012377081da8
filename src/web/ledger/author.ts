const KEPT_AS = 'unfasten.author';
/** Under whose hand a change goes before anybody has named themselves. */
export const NOBODY_NAMED = 'not named';

/** At whose hand are the changes of this browser? */
export const keptAuthor = (): string => {
  try {
    return localStorage.getItem(KEPT_AS)?.trim() || NOBODY_NAMED;
  } catch {
    return NOBODY_NAMED;
  }
};

/** Keeps at whose hand the changes are, cut to what the ledger takes. */
export const keepAuthor = (name: string): void => {
  try {
    localStorage.setItem(KEPT_AS, name.trim().slice(0, 200));
  } catch {
    // Without a store the name has to be given again next time.
  }
};
