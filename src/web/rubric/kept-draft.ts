const KEPT_AS = 'unfasten.rubric-draft';

/** The rubric's text as it was being edited in this tab; undefined where nothing is. */
export const keptDraft = (): string | undefined => {
  try {
    return sessionStorage.getItem(KEPT_AS) ?? undefined;
  } catch {
    return undefined;
  }
};

/** Keeps what is being edited over a reload and while other screens are looked at; undefined lets go of it. */
export const keepDraft = (text: string | undefined): void => {
  try {
    if (text === undefined) sessionStorage.removeItem(KEPT_AS);
    else sessionStorage.setItem(KEPT_AS, text);
  } catch {
    // Without a store what is being edited lasts as long as the screen.
  }
};
