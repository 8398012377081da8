import type { Assessment, Session } from '#record/schema/assessment';
import type { Naming } from '../commands/bench-patches.ts';
import { type LastChance, type LastChanceView, lastChance } from './last-chance.ts';

/** An act that was said and is not entered yet, because a question must be put before it. Its time is marked already. */
export interface HeldAct {
  /** The mark that it names once it is let go. */
  readonly mark: string;
  readonly naming: Naming;
  readonly how: 'suggested' | 'by-hand';
  readonly named: 'at-once' | 'later';
}

/** Which acts are held, and which are to be entered now? An act is let go when nothing is left to ask before it. */
export interface HeldNow {
  /** The question before the first act that is held. */
  readonly question: LastChance | undefined;
  readonly held: readonly HeldAct[];
  /** Acts with nothing left to ask, in the order in which they were said. */
  readonly released: readonly HeldAct[];
  /** Acts whose mark was taken back or named in the meantime: there is nothing to enter any more. */
  readonly fallen: readonly HeldAct[];
}

/** Sorts the acts that were held by what there is to ask before them now. The later ones wait for the first. */
export const heldNow = (view: LastChanceView, acts: readonly HeldAct[]): HeldNow => {
  const session = view.document.sessions?.[view.session];
  const fallen = acts.filter(({ mark }) => !isOpenMark(session, mark));
  const waiting = acts.filter((act) => !fallen.includes(act));
  const first = waiting.findIndex(({ naming }) => lastChance(view, naming) !== undefined);
  const count = first < 0 ? waiting.length : first;
  return {
    question: first < 0 ? undefined : lastChance(view, waiting[first]?.naming),
    held: waiting.slice(count),
    released: waiting.slice(0, count),
    fallen,
  };
};

const isOpenMark = (session: Session | undefined, mark: string): boolean => {
  const entry = session?.entries[mark];
  const isCorrected = Object.values(session?.entries ?? {}).some(({ corrects }) => corrects === mark);
  return entry !== undefined && entry.do === undefined && entry.note === undefined && !isCorrected;
};

/** How many questions were put in a session and waved off? */
export const wavedOff = (document: Assessment, session: string): number =>
  Object.values(document.parts ?? {})
    .flatMap(({ untried }) => Object.values(untried ?? {}))
    .filter((one) => one.session === session).length;
