/** Which sheet is the page drawn on: the system's, the light one, or the dark bench? */
export type Theme = 'system' | 'light' | 'dark';

/** The choices in the order in which the switch goes round. */
export const THEMES: readonly Theme[] = ['system', 'light', 'dark'];

const KEPT_AS = 'unfasten.theme';

/** Which sheet was chosen in this browser? `system` where none was, or where nothing may be kept. */
export const keptTheme = (): Theme => {
  try {
    const kept = localStorage.getItem(KEPT_AS);
    return THEMES.find((theme) => theme === kept) ?? 'system';
  } catch {
    return 'system';
  }
};

/** Draws the page on a sheet, and keeps the choice where the browser lets us. */
export const putSheet = (theme: Theme): void => {
  if (theme === 'system') delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
  try {
    localStorage.setItem(KEPT_AS, theme);
  } catch {
    // Private windows may keep nothing; the choice then holds until the page is closed.
  }
};
