import { useSyncExternalStore } from 'react';
import type { AssessmentDependencies } from './assessment-dependencies.ts';
import { keptAuthor } from './author.ts';
import { newChangeKey, wallTime } from './change-key.ts';
import { followChanges } from './follow-changes.ts';
import { readChanges, readHead, sendChange } from './ledger-client.ts';
import { type OpenAssessment, openAssessment } from './open-assessment.ts';
import { openOutbox } from './outbox.ts';
import type { Snapshot } from './snapshot.ts';
import { openTabLine } from './tab-line.ts';

const outbox = openOutbox();

/** A pause that ends early when the network is back or the page is looked at again. */
const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => {
    const done = () => {
      clearTimeout(timer);
      window.removeEventListener('online', done);
      document.removeEventListener('visibilitychange', done);
      resolve();
    };
    const timer = setTimeout(done, milliseconds);
    window.addEventListener('online', done);
    document.addEventListener('visibilitychange', done);
  });

const dependencies: AssessmentDependencies = {
  readHead,
  readChanges,
  sendChange,
  follow: followChanges,
  outbox,
  openLine: openTabLine,
  newChangeKey,
  wallTime,
  author: keptAuthor,
  pause,
};

/** An assessment that is open, and how many screens look at it. */
interface Held {
  readonly open: OpenAssessment;
  readonly subscribe: OpenAssessment['subscribe'];
}

const opened = new Map<string, Held>();
const opening = new Map<string, Promise<OpenAssessment>>();
/** How long an assessment that nobody looks at stays open [ms]: going from screen to screen shall not read it anew. */
const IDLE_MILLISECONDS = 5000;

/** Opens an assessment once for the whole page, before its screens are drawn. Throws `NotAnswered`. */
export const holdAssessment = (assessment: string): Promise<OpenAssessment> => {
  const held = opening.get(assessment);
  if (held) return held;
  const begun = openAssessment(assessment, dependencies);
  opening.set(assessment, begun);
  begun.then(
    (open) => opened.set(assessment, heldUntilIdle(assessment, open)),
    () => opening.delete(assessment),
  );
  return begun;
};

/** Closes an assessment that nobody has looked at for a while; one with changes under way goes on sending. */
const heldUntilIdle = (assessment: string, open: OpenAssessment): Held => {
  let users = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const closeIfIdle = () => {
    if (users > 0) return;
    if (open.snapshot().pending > 0) return watch();
    open.close();
    opened.delete(assessment);
    opening.delete(assessment);
  };
  const watch = () => {
    clearTimeout(timer);
    timer = setTimeout(closeIfIdle, IDLE_MILLISECONDS);
  };
  watch();
  const subscribe = (listener: () => void) => {
    users += 1;
    const unsubscribe = open.subscribe(listener);
    return () => {
      users -= 1;
      unsubscribe();
      watch();
    };
  };
  return { open, subscribe };
};

/** Sends what earlier visits left in the outbox, whichever screen is looked at. */
export const sendLeftovers = async (): Promise<void> => {
  const waiting = await outbox.waiting().catch(() => []);
  await Promise.allSettled(waiting.map(holdAssessment));
};

/** The assessment of a screen below `/a/$assessment`: what it holds now, and how it is changed. */
export const useAssessment = (assessment: string): { readonly open: OpenAssessment; readonly snapshot: Snapshot } => {
  const held = opened.get(assessment);
  if (!held) throw new Error(`The assessment ${assessment} is used before it is opened.`);
  const snapshot = useSyncExternalStore(held.subscribe, held.open.snapshot);
  return { open: held.open, snapshot };
};
