import type { Patch } from '#record/patch/operation';
import type { Session } from '#record/schema/assessment';
import { benchKey } from '../commands/bench-key.ts';
import * as patches from '../commands/bench-patches.ts';
import { type NewThing, newThing, newThings } from '../commands/new-thing.ts';
import { startOverlap, stopOverlap } from '../commands/overlap-patches.ts';
import { beginRetake, endRetake, entryToRepeat, openRetake } from '../commands/retake-patches.ts';
import { recordUntried } from '../commands/trial-patches.ts';
import type { LiveReadout } from '../live/live-readout.ts';
import type { HeldAct } from '../suggestion/held-acts.ts';
import { type LastChance, lastChances } from '../suggestion/last-chance.ts';
import type { Suggestion } from '../suggestion/suggest-mark.ts';
import { type HarmActs, harmActs } from './harm-acts.ts';
import type { Absence } from './use-session-clock.ts';

/** What can be done at the bench. */
export interface BenchActs extends HarmActs {
  /** Marks the time now, or that of a press so long ago [ms]: a busy page hears late of it. */
  readonly markTime: (agoMilliseconds?: number) => void;
  readonly takeSuggestion: (outcome?: 'partial' | 'failed') => void;
  readonly name: (naming: patches.Naming, mark?: string, fresh?: NewThing) => void;
  /** Enters a note of its own, whatever is waiting for a name. */
  readonly note: (text: string) => void;
  readonly putOff: () => void;
  readonly undo: () => void;
  readonly setGoal: (goal: string | undefined, fresh?: NewThing) => void;
  readonly holdOrResume: (reason: string) => void;
  /** Begins a retake of what was last done, or of what was last done to one of these things; or goes back to the session. */
  readonly retakeOrReturn: (of?: RetakeOf) => void;
  readonly startOverlap: (place: string) => void;
  /** Enters several actions that share the time from one entry to another, as the lines say. */
  readonly catchUp: (between: CaughtBetween, namings: readonly patches.Naming[], fresh: readonly NewThing[]) => void;
  readonly stopOverlap: (key: string, naming: patches.Naming) => void;
  readonly review: (key: string) => void;
  readonly forgetNews: () => void;
  /** Makes the time nobody was here a pause. */
  readonly holdAway: () => void;
  /** Work went on while the clock stood: it is put on to where it would be. */
  readonly workedOn: () => void;
}

/** Between what actions were caught up: since a session time [s], until an entry or, where there is none, until now. */
export interface CaughtBetween {
  readonly from: number;
  readonly until: string | undefined;
}

/** What is done again: the things worked on, and what was said of it. */
export interface RetakeOf {
  readonly things: readonly string[];
  readonly note: string;
}

/** What the acts of a session work with. */
export interface ActsSource {
  readonly place: patches.BenchPlace;
  /** Session time now [s]. */
  readonly clock: () => number;
  readonly state: {
    readonly goal: string | undefined;
    readonly mark: string | undefined;
    /** Is the mark the last thing that was logged, so that what was passed can still be tried? */
    readonly isNewest: boolean;
    readonly suggestion: Suggestion | undefined;
    readonly readout: LiveReadout;
  };
  readonly put: (patch: Patch) => void;
  readonly setGoal: (goal: string | undefined) => void;
  readonly putOff: () => void;
  readonly goTo: (mark: string | undefined) => void;
  /** On air nothing is asked. */
  readonly isOnAir: boolean;
  readonly held: { readonly waiting: readonly HeldAct[]; hold(act: HeldAct): void; drop(): void };
  readonly forgetNews: () => void;
  readonly away: Absence | undefined;
  readonly putClockOn: (seconds: number) => void;
}

/** The acts of a session, each a patch on the record. */
export const benchActs = (source: ActsSource): BenchActs => {
  const session = source.place.document.sessions?.[source.place.session];
  return {
    ...markActs(source),
    ...nameActs(source),
    ...pauseActs(source, session),
    ...workActs(source, session),
    ...harmActs(source, session),
    setGoal: (goal, fresh) => {
      source.put(fresh ? newThing(source.place.document, fresh) : []);
      source.setGoal(goal);
    },
    putOff: source.putOff,
  };
};

const keyed = ({ clock }: ActsSource, letter: string): string => benchKey(letter, clock(), Math.random);

const markActs = (source: ActsSource): Pick<BenchActs, 'markTime' | 'undo' | 'review'> => {
  const { place, clock, state, put, held } = source;
  return {
    markTime: (agoMilliseconds = 0) => {
      const at = clock() - agoMilliseconds / 1000;
      put(patches.markTime(place, { key: keyed(source, 'e'), at: Math.max(lastAt(place), at), goal: state.goal }));
      source.goTo(undefined);
    },
    undo: () => {
      if (held.waiting.length > 0) held.drop();
      else put(patches.undoLast(place));
    },
    review: (key) => put(patches.reviewEntry(place, key)),
  };
};

/** When was the last thing logged [s]? No later press lies before it. */
const lastAt = ({ document, session }: patches.BenchPlace): number =>
  Math.max(0, ...Object.values(document.sessions?.[session]?.entries ?? {}).map(({ at }) => at));

type NameActs = Pick<BenchActs, 'name' | 'note' | 'takeSuggestion'>;

const nameActs = (source: ActsSource): NameActs => {
  const { place, put, state } = source;
  const { mark: pending, suggestion } = state;
  const enter = (naming: patches.Naming, mark: string | undefined, how: HeldAct['how']): void => {
    const closed = closedBy(source, naming, mark);
    if (closed.length > 0 && !source.isOnAir) holdAct(source, { naming, mark, how });
    else put([...notAsked(source, closed), ...said(source, { naming, mark, how })]);
  };
  return {
    name: (naming, mark = pending, fresh = undefined) => {
      if (fresh) put([...newThing(place.document, fresh), ...said(source, { naming, mark, how: 'by-hand' })]);
      else enter(naming, mark, 'by-hand');
    },
    note: (text) => put(said(source, { naming: { note: text }, mark: undefined, how: 'by-hand' })),
    takeSuggestion: (outcome) => {
      if (!suggestion) return;
      const { free: _came, ...attempted } = suggestion.naming;
      enter(outcome === undefined ? suggestion.naming : { ...attempted, outcome }, pending, 'suggested');
    },
  };
};

interface Said {
  readonly naming: patches.Naming;
  readonly mark: string | undefined;
  readonly how: HeldAct['how'];
}

/** What is said of a mark, or entered now. */
const said = (source: ActsSource, { naming, mark, how }: Said): Patch => {
  const { place, clock, state } = source;
  if (mark !== undefined) return patches.nameEntry(place, mark, { ...naming, named: 'later', naming: how });
  const { goal } = state;
  return patches.enterAction(place, { ...naming, key: keyed(source, 'e'), at: clock(), goal, naming: how });
};

/** Which questions does the act close that can still be answered? What was passed already cannot be tried any more. */
const closedBy = (
  { place, state }: ActsSource,
  naming: patches.Naming,
  mark: string | undefined,
): readonly LastChance[] => {
  const isNow = mark === undefined || (mark === state.mark && state.isNewest);
  return isNow ? lastChances({ ...place, readout: state.readout }, naming) : [];
};

/** What was not asked, because nothing is asked on air, leaves its trace like what was not tried. */
const notAsked = (source: ActsSource, closed: readonly LastChance[]): Patch => {
  const { place, state } = source;
  const { specimen } = place.document.sessions?.[place.session] ?? {};
  const questions = closed.map(({ subject, stillIn }) => ({
    key: keyed(source, 't'),
    part: subject,
    off: [...state.readout.off],
    stillIn: [...stillIn],
    ...(specimen === undefined ? {} : { specimen }),
    session: place.session,
    note: 'on air, not asked',
  }));
  return recordUntried({ document: place.document, device: state.readout.device }, questions);
};

/** Marks the time at which an act was said, so that it is not lost, and lets the act wait. */
const holdAct = (source: ActsSource, { naming, mark, how }: Said): void => {
  const { place, clock, state, put, held } = source;
  const key = mark ?? keyed(source, 'e');
  if (mark === undefined) put(patches.markTime(place, { key, at: clock(), goal: state.goal }));
  held.hold({ mark: key, naming, how, named: mark === undefined ? 'at-once' : 'later' });
};

type PauseActs = Pick<BenchActs, 'holdOrResume' | 'retakeOrReturn' | 'forgetNews' | 'holdAway' | 'workedOn'>;

const pauseActs = (source: ActsSource, session: Session | undefined): PauseActs => {
  const { place, clock, put, away } = source;
  return {
    holdOrResume: (reason) => {
      const going = session && patches.openHold(session);
      if (going) put(patches.endHold(place, going[0], Math.max(clock(), going[1].from + 0.001)));
      else put(patches.startHold(place, { key: keyed(source, 'h'), from: clock(), reason }));
    },
    retakeOrReturn: (of) => {
      const going = session && openRetake(session);
      const now = Math.max(clock(), going?.[1].from ?? 0);
      put(going ? endRetake(place, going[0], now) : []);
      if (!session || (going && of === undefined)) return;
      const repeats = entryToRepeat(session, of?.things);
      const note = of === undefined || of.note === '' ? {} : { note: of.note };
      put(
        beginRetake(place, {
          key: keyed(source, 'r'),
          from: now,
          ...(repeats === undefined ? {} : { repeats }),
          ...note,
        }),
      );
    },
    forgetNews: source.forgetNews,
    holdAway: () => {
      if (away) {
        const { from, to, reason } = away;
        put(patches.enterHold(place, { key: keyed(source, 'h'), from, to, reason }));
        source.putClockOn(away.stood);
      }
      source.forgetNews();
    },
    workedOn: () => {
      if (away) source.putClockOn(away.stood);
      source.forgetNews();
    },
  };
};

const workActs = (
  source: ActsSource,
  session: Session | undefined,
): Pick<BenchActs, 'startOverlap' | 'stopOverlap' | 'catchUp'> => {
  const { place, clock, state, put } = source;
  return {
    startOverlap: (at) =>
      put(startOverlap(place, { key: keyed(source, 'e'), at: clock(), goal: state.goal, place: at })),
    catchUp: ({ from, until }, namings, fresh) => {
      const interval = keyed(source, 'i');
      const last = until === undefined ? undefined : session?.entries[until];
      const caught = namings.map((naming) => ({ ...naming, key: keyed(source, 'e') }));
      // The mark they end at lies in the same stretch, and nobody knows its own share of it either.
      const isShared = until !== undefined && last !== undefined && patches.isUnnamed(last);
      const named = new Map(fresh.map((thing) => [thing.key, thing]));
      put([
        ...newThings(place.document, [...named.values()]),
        ...patches.catchUp(place, { interval, from, to: Math.max(from, last?.at ?? clock()), namings: caught }),
        ...(isShared ? patches.nameEntry(place, until, { interval }) : []),
      ]);
    },
    stopOverlap: (key, naming) => put(stopOverlap(place, key, { key: keyed(source, 'e'), at: clock(), naming })),
  };
};
