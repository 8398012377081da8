import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import { readLastEdition } from './laboratory-client.ts';

/** Whose readings hold in this application: not known yet, known (and there may be none), or in words why they are not there. */
export type CurrentLaboratory =
  | { readonly state: 'asking' }
  | { readonly state: 'known'; readonly laboratory?: Laboratory; readonly text?: string }
  | { readonly state: 'missing'; readonly why: string };

const listeners = new Set<() => void>();
let current: CurrentLaboratory = { state: 'asking' };
let isAsked = false;

/** What there is now; the very same object until something changes. */
export const currentLaboratory = (): CurrentLaboratory => current;

/** Calls `listener` after every change, until the returned function is called; asks the server at the first call. */
export const subscribeLaboratory = (listener: () => void): (() => void) => {
  listeners.add(listener);
  if (!isAsked) void askLaboratory();
  return () => listeners.delete(listener);
};

/** Asks the server for the edition kept last. The reader of documents is loaded only where there is one. */
export const askLaboratory = async (): Promise<void> => {
  isAsked = true;
  try {
    const text = await readLastEdition();
    show(text === undefined ? { state: 'known' } : await readText(text));
  } catch (error) {
    isAsked = false;
    show({ state: 'missing', why: error instanceof Error ? error.message : String(error) });
  }
};

const readText = async (text: string): Promise<CurrentLaboratory> => {
  const { readLaboratory } = await import('#verdict/laboratory/read-laboratory');
  const file = { fileName: 'laboratory.yaml', bytes: new TextEncoder().encode(text) };
  const { laboratory } = readLaboratory(file);
  return laboratory
    ? { state: 'known', laboratory, text }
    : { state: 'missing', why: 'The kept readings cannot be used by this program.' };
};

const show = (next: CurrentLaboratory): void => {
  current = next;
  for (const listener of listeners) listener();
};
