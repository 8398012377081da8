import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import { type ToldEdition, whenEditionTold } from '../ledger/follow-changes.ts';
import { readLastEdition } from './laboratory-client.ts';

/** Whose readings hold in this application: not known yet, known (and there may be none), or in words why they are not there. */
export type CurrentLaboratory =
  | { readonly state: 'asking' }
  | { readonly state: 'known'; readonly laboratory?: Laboratory; readonly text?: string }
  | { readonly state: 'missing'; readonly why: string };

/** Between two attempts to read an edition that is known to be there [ms]. */
const RETRY_MILLISECONDS = 2000;

const listeners = new Set<() => void>();
let current: CurrentLaboratory = { state: 'asking' };
let isAsked = false;
let told: ToldEdition | undefined;
let [begun, shown] = [0, 0];

/** What there is now; the very same object until something changes. */
export const currentLaboratory = (): CurrentLaboratory => current;

/** Calls `listener` after every change, until the returned function is called; asks the server at the first call. */
export const subscribeLaboratory = (listener: () => void): (() => void) => {
  if (listeners.size === 0) document.addEventListener('visibilitychange', lookedAtAgain);
  listeners.add(listener);
  if (!isAsked) void askLaboratory();
  return () => {
    listeners.delete(listener);
    if (listeners.size === 0) document.removeEventListener('visibilitychange', lookedAtAgain);
  };
};

/** Asks the server for the edition kept last. The reader of documents is loaded only where there is one. */
export const askLaboratory = async (): Promise<void> => {
  isAsked = true;
  try {
    await readCurrent();
  } catch (error) {
    isAsked = false;
    show({ state: 'missing', why: error instanceof Error ? error.message : String(error) });
  }
};

/**
 * Takes in that an edition holds now: reads it, unless it is the one there is, and tries until it is there. What is known stays
 * meanwhile, with its edition named where it is shown. Where nobody looks at the laboratory, the next who does asks anew.
 */
const laboratoryTold = async (edition: ToldEdition): Promise<void> => {
  told = edition;
  isAsked &&= listeners.size > 0;
  while (told === edition && isAsked && !holds(edition)) {
    try {
      await readCurrent();
      return;
    } catch {
      await new Promise((resolve) => setTimeout(resolve, RETRY_MILLISECONDS));
    }
  }
};

whenEditionTold((edition) => void laboratoryTold(edition));

/** A screen without a line, such as the shelf, hears of an edition when it is looked at again; without an answer all stays. */
const lookedAtAgain = (): void => {
  if (document.visibilityState === 'visible' && current.state !== 'asking') void readCurrent().catch(() => undefined);
};

const holds = ({ id, edition }: ToldEdition): boolean =>
  current.state === 'known' && current.laboratory?.id === id && current.laboratory.edition === edition;

/** Reads the edition kept last and shows it, unless a later reading came first. Throws `NotAnswered`. */
const readCurrent = async (): Promise<void> => {
  begun += 1;
  const own = begun;
  const text = await readLastEdition();
  const next: CurrentLaboratory = text === undefined ? { state: 'known' } : await readText(text);
  if (own < shown) return;
  shown = own;
  // Under another object every figure would be worked out again.
  if (current.state !== 'known' || next.state !== 'known' || current.text !== next.text) show(next);
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
