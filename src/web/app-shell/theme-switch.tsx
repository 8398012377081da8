import { useState } from 'react';
import { Button } from '../look/button.tsx';
import { keptTheme, putSheet, THEMES, type Theme } from './theme.ts';

const WORDS: Readonly<Record<Theme, string>> = { system: 'as the system', light: 'light', dark: 'dark' };

/** The switch between the sheets: one button that goes round. */
export const ThemeSwitch = () => {
  const [theme, setTheme] = useState(keptTheme);
  const next = THEMES[(THEMES.indexOf(theme) + 1) % THEMES.length] ?? 'system';
  const turn = () => {
    putSheet(next);
    setTheme(next);
  };
  return (
    <Button quiet onPress={turn}>
      Sheet: {WORDS[theme]}
    </Button>
  );
};
