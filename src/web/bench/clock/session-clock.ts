/** One reading of both clocks: monotonic [ms, as `performance.now`] and wall [ms since 1970]. */
export interface ClockReading {
  readonly monotonic: number;
  readonly wall: number;
}

/** How much the wall clock must run away from the monotonic one before it is said [ms]. */
const DRIFT_MILLISECONDS = 2000;

/** Where a session's time is counted from; kept, so that a page that is opened anew goes on counting. */
export interface ClockAnchor {
  /** Wall time of the session's start [ms since 1970]. */
  readonly startWall: number;
  /** The reading at which this page took the session up. */
  readonly reading: ClockReading;
  /** Session time at that reading [s]. */
  readonly at: number;
}

/**
 * Where does a page count from that takes a session up? Where it starts the session: from zero. Where it goes on: from the
 * wall time since the start, but never before the last entry, so that a wall clock put back spoils nothing.
 */
export const takeUp = (startWall: number, lastAt: number, reading: ClockReading): ClockAnchor => ({
  startWall,
  reading,
  at: Math.max(lastAt, (reading.wall - startWall) / 1000, 0),
});

/** What a page kept of a session's clock: the last session time [s] it knew, and the wall time then [ms since 1970]. */
interface KeptClock {
  readonly at: number;
  readonly wall: number;
}

/** A gap longer than this [s] is said, since nobody knows whether it was work. */
const AWAY_SECONDS = 60;

/** Where a page counts from, and between which session times [s] it was away, where that was long. */
export interface TakenUp {
  readonly anchor: ClockAnchor;
  readonly away: { readonly from: number; readonly to: number } | undefined;
}

/**
 * Where does a page count from that goes on with a session? From the last time it kept, so that a wall clock put during the
 * session changes nothing; only the gap since then is by the wall. Without a kept time as {@link takeUp}. Never before the last
 * entry, and never backwards.
 */
export const goOn = (
  kept: KeptClock | undefined,
  session: { readonly startWall: number; readonly lastAt: number },
  reading: ClockReading,
): TakenUp => {
  const { startWall, lastAt } = session;
  const known = Math.max(lastAt, kept?.at ?? 0);
  const byGap = kept && { startWall, reading, at: Math.max(known, kept.at + (reading.wall - kept.wall) / 1000) };
  const anchor = byGap ?? takeUp(startWall, lastAt, reading);
  const isLong = anchor.at - known > AWAY_SECONDS && known > 0;
  return { anchor, away: isLong ? { from: known, to: anchor.at } : undefined };
};

/** What was kept as text, as far as it is a time; undefined for anything else. */
export const readKept = (text: string | null): KeptClock | undefined => {
  try {
    const { at, wall } = (JSON.parse(text ?? '') ?? {}) as { at?: unknown; wall?: unknown };
    const isTime = Number.isFinite(at) && Number.isFinite(wall) && Number(at) >= 0;
    return isTime ? { at: Number(at), wall: Number(wall) } : undefined;
  } catch {
    return undefined;
  }
};

/** An entry made elsewhere may be ahead of this page's clock: then it is moved on to it, and never back. */
export const movedOn = (anchor: ClockAnchor, lastAt: number, reading: ClockReading): ClockAnchor =>
  lastAt > sessionTime(anchor, reading) ? { ...anchor, reading, at: lastAt } : anchor;

/** What time of the session is it [s, to the millisecond]? By the monotonic clock alone. */
export const sessionTime = ({ at, reading }: ClockAnchor, now: ClockReading): number =>
  Math.round((at + (now.monotonic - reading.monotonic) / 1000) * 1000) / 1000;

/** What did the two clocks do between two looks? */
export type ClockNews =
  | { readonly kind: 'together' }
  /** The wall clock went on while the monotonic one stood, as when a laptop sleeps: so long [s]; before and after it ran [s]. */
  | { readonly kind: 'slept'; readonly seconds: number; readonly ran: number }
  /** The monotonic clock leapt ahead of the wall clock, by so long in all [s]. */
  | { readonly kind: 'leapt'; readonly seconds: number }
  /** Both went on, but nobody looked for so long [s]: a sleep in which the monotonic clock ran, or a page that was frozen. */
  | { readonly kind: 'unwatched'; readonly seconds: number }
  /** The wall clock was put back or forward; the session's time is not touched. */
  | { readonly kind: 'wall-put'; readonly seconds: number };

/** A gap in the looking longer than this [s], with both clocks together, is said: browsers let a page in the back look once a minute. */
const UNWATCHED_SECONDS = 120;

/**
 * Has this machine slept, or was its clock put? Between two readings of a page that looks at least every few seconds: a wall
 * clock far ahead of the monotonic one, across a gap in the looking, is a sleep; without a gap, or backwards, it was put. A
 * monotonic clock far ahead of the wall one, across a gap by its own count, leapt.
 */
export const clockNews = (before: ClockReading, now: ClockReading, expectedGap: number): ClockNews => {
  const monotonic = now.monotonic - before.monotonic;
  const wall = now.wall - before.wall;
  const drift = wall - monotonic;
  const longest = expectedGap + DRIFT_MILLISECONDS;
  const seconds = Math.round(drift / 1000);
  if (Math.abs(drift) < DRIFT_MILLISECONDS) {
    const gap = monotonic / 1000;
    return gap > UNWATCHED_SECONDS ? { kind: 'unwatched', seconds: gap } : { kind: 'together' };
  }
  if (drift > 0 && wall > longest) return { kind: 'slept', seconds, ran: monotonic / 1000 };
  if (drift < 0 && monotonic > longest) return { kind: 'leapt', seconds: monotonic / 1000 };
  return { kind: 'wall-put', seconds };
};

/** A stretch in which nobody knows whether there was work, and why. */
export interface Absence {
  /** Between which session times [s], the stretch for which the clock stood included. */
  readonly from: number;
  readonly to: number;
  /** For how much of it the session's clock stood [s]: it must be put on by that before the stretch is in the session. */
  readonly stood: number;
  /** Why, as the reason of a pause. */
  readonly reason: string;
}

/**
 * Between which session times [s] was nobody here, by what the clocks did until now? Undefined where they ran on together. A
 * sleep begins after the last thing logged: that was done before it, within one look.
 */
export const absenceOf = (news: ClockNews, now: number, lastAt: number): Absence | undefined => {
  const milliseconds = (time: number): number => Math.round(Math.max(0, time) * 1000) / 1000;
  if (news.kind === 'slept') {
    const { seconds, ran } = news;
    const from = Math.max(now - ran, Math.min(lastAt, now));
    return { from: milliseconds(from), to: milliseconds(now + seconds), stood: seconds, reason: 'machine slept' };
  }
  if (news.kind !== 'leapt' && news.kind !== 'unwatched') return undefined;
  const reason = news.kind === 'leapt' ? 'clock leapt' : 'page stood still';
  return { from: milliseconds(now - news.seconds), to: milliseconds(now), stood: 0, reason };
};

/**
 * What is left of an absence once other things were logged, at these session times [s]? It begins after the last of them that
 * lies in it, as another screen may have logged it, or this page just before it was found. Where the clock stood, times in it
 * are taken as soon as anything is logged after it was found.
 */
export const absenceSince = (absence: Absence | undefined, logged: readonly number[]): Absence | undefined => {
  if (absence === undefined) return undefined;
  const { from, to, stood } = absence;
  if (stood > 0 && logged.some((at) => at > to - stood)) return undefined;
  const last = Math.max(from, ...logged.filter((at) => at <= to));
  return last >= to ? undefined : { ...absence, from: last };
};

/** Puts a session's clock on [s]. */
export const putOn = (anchor: ClockAnchor, seconds: number): ClockAnchor => ({ ...anchor, at: anchor.at + seconds });

/** How is a session time read off at a metre's distance? `h:mm:ss`. */
export const clockFace = (seconds: number): string => {
  const whole = Math.max(0, Math.floor(seconds));
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
};
