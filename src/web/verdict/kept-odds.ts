import type { OddsText } from '../engine/engine-messages.ts';

const KEPT_AS = 'unfasten.odds.';

/** Odds of this visit, for a browser that keeps nothing. */
const visit = new Map<string, string>();
const listeners = new Set<() => void>();

/** Which odds does this browser keep for an assessment, as JSON? The same string until they change; undefined where none. */
export const keptOddsText = (assessment: string): string | undefined => {
  try {
    return localStorage.getItem(KEPT_AS + assessment) ?? visit.get(assessment);
  } catch {
    return visit.get(assessment);
  }
};

/** Which odds are those? What is no such text is as good as none. */
export const oddsOfText = (kept: string | undefined): OddsText | undefined => {
  try {
    const { fileName, text } = JSON.parse(kept ?? 'null') as OddsText;
    return typeof fileName === 'string' && typeof text === 'string' ? { fileName, text } : undefined;
  } catch {
    return undefined;
  }
};

/** Keeps odds for an assessment in this browser, or none any more. */
export const keepOdds = (assessment: string, odds: OddsText | undefined): void => {
  const kept = odds && JSON.stringify(odds);
  try {
    if (kept === undefined) localStorage.removeItem(KEPT_AS + assessment);
    else localStorage.setItem(KEPT_AS + assessment, kept);
    visit.delete(assessment);
  } catch {
    if (kept === undefined) visit.delete(assessment);
    else visit.set(assessment, kept);
  }
  for (const listener of listeners) listener();
};

/** Calls `listener` when odds change, here or in another window of this browser, until the returned function is called. */
export const subscribeOdds = (listener: () => void): (() => void) => {
  const hear = ({ key }: StorageEvent) => {
    if (key === null || key.startsWith(KEPT_AS)) listener();
  };
  listeners.add(listener);
  window.addEventListener('storage', hear);
  return () => {
    listeners.delete(listener);
    window.removeEventListener('storage', hear);
  };
};
