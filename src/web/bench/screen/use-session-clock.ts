import { useEffect, useMemo, useRef, useState } from 'react';
import type { Session } from '#record/schema/assessment';
import {
  type Absence,
  absenceOf,
  absenceSince,
  type ClockNews,
  type ClockReading,
  clockNews,
  goOn,
  movedOn,
  putOn,
  readKept,
  sessionTime,
  type TakenUp,
} from '../clock/session-clock.ts';
import { openHold } from '../commands/bench-patches.ts';

const readClocks = (): ClockReading => ({ monotonic: performance.now(), wall: Date.now() });

/** Looked at so often [ms]: often enough to tell a sleep from a clock that was put. */
const LOOK_MILLISECONDS = 1000;

export type { Absence } from '../clock/session-clock.ts';

/** A session's clock on this page: its time, what the clocks did, and between which times nobody was here. */
export const useSessionClock = (session: Session) => {
  const [put, setPut] = useState<number>();
  const taken = useRef<TakenUp>(undefined);
  const lastAt = useMemo(() => lastTime(session), [session]);
  const keptAs = `unfasten.bench-clock.${session.start}.${session.specimen}`;
  if (taken.current === undefined)
    taken.current = goOn(readKept(kept(keptAs)), { startWall: Date.parse(session.start), lastAt }, readClocks());
  const [absence, setAbsence] = useState<Absence | undefined>(
    taken.current.away && { ...taken.current.away, stood: 0, reason: 'away' },
  );
  taken.current = { ...taken.current, anchor: movedOn(taken.current.anchor, lastAt, readClocks()) };
  const now = (): number => sessionTime((taken.current as TakenUp).anchor, readClocks());
  const isHeld = openHold(session) !== undefined;
  useClockWatch(now, keptAs, (found) => {
    if (found.kind === 'wall-put') setPut(found.seconds);
    // A pause is going on already: it holds whatever the clocks did.
    else if (!isHeld) setAbsence(absenceOf(found, now(), lastAt));
  });
  const away = absence && absenceSince(absence, loggedTimes(session));
  return {
    now,
    away,
    news: put === undefined ? absence && absenceWords(absence, away) : putWords(put),
    forget: () => (put === undefined ? setAbsence(undefined) : setPut(undefined)),
    putOn: (seconds: number) => {
      if (taken.current) taken.current = { ...taken.current, anchor: putOn(taken.current.anchor, seconds) };
    },
  };
};

const lastTime = ({ entries }: Session): number => {
  let last = 0;
  for (const { at } of Object.values(entries)) last = Math.max(last, at);
  return last;
};

const loggedTimes = ({ entries, holds }: Session): readonly number[] => [
  ...Object.values(entries).map(({ at }) => at),
  ...Object.values(holds ?? {}).flatMap(({ from, to }) => [from, to]),
];

const putWords = (seconds: number): string =>
  `The wall clock was put by ${seconds} s. The session's times are not touched.`;

const absenceWords = (was: Absence, left: Absence | undefined): string => {
  const seconds = Math.round(was.to - was.from);
  const question = left ? ' Was it a pause?' : ' What was logged since stands at its own time.';
  if (was.stood > 0) return `This machine slept for ${Math.round(was.stood)} s; the session's clock stood.${question}`;
  if (was.reason === 'away') return `Nobody was on this page for ${seconds} s, by the wall clock.${question}`;
  return `This page stood still for ${seconds} s; the session's clock went on.${question}`;
};

/** Looks at the clocks once a second, keeps the time for a page that is opened anew, and tells what they did. */
const useClockWatch = (now: () => number, keptAs: string, tell: (found: ClockNews) => void) => {
  const latest = useRef({ now, tell });
  latest.current = { now, tell };
  useEffect(() => {
    let before = readClocks();
    const timer = setInterval(() => {
      const reading = readClocks();
      const found = clockNews(before, reading, LOOK_MILLISECONDS * 5);
      before = reading;
      keep(keptAs, JSON.stringify({ at: latest.current.now(), wall: reading.wall }));
      if (found.kind !== 'together') latest.current.tell(found);
    }, LOOK_MILLISECONDS);
    return () => clearInterval(timer);
  }, [keptAs]);
};

const kept = (name: string): string | null => {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
};

const keep = (name: string, text: string): void => {
  try {
    localStorage.setItem(name, text);
  } catch {
    // Without a store a page that is opened anew goes by the wall clock, and says a long gap.
  }
};
