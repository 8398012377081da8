import type { Device } from '#record/device/device';
import { retakeOf, retakesOf } from '#record/log/retakes';
import type { Entry, Session } from '#record/schema/assessment';
import { entryWords } from './entry-words.ts';

/** One line of the log as the bench shows it. */
export interface LogLine {
  readonly key: string;
  readonly at: number;
  readonly words: string;
  /** Seconds since the entry before, or since its own beginning, less the pauses in them; a pause's own, once it is over. */
  readonly took: number | undefined;
  readonly state: 'named' | 'unnamed' | 'going-on' | 'failed' | 'hold' | 'retake' | 'suggested';
  readonly isReviewed: boolean;
}

/** Which entries of a session gave way to another? */
export const correctedIn = ({ entries }: Session): ReadonlySet<string> => {
  const corrected = new Set<string>();
  for (const { corrects } of Object.values(entries)) if (corrects !== undefined) corrected.add(corrects);
  return corrected;
};

/**
 * What does a log look like, line by line in the order of time? A line whose entry, and all it is drawn from, is the same as
 * before is the very same object, so that a screen need not draw it again.
 */
export const logLines = (session: Session, device: Device): readonly LogLine[] => {
  const gone = correctedIn(session);
  const standing = Object.entries(session.entries)
    .filter(([key, entry]) => !gone.has(key) && entry.withdrawn !== true)
    .sort(([, a], [, b]) => a.at - b.at);
  const ends = new Map<string | undefined, number>();
  const entries = standing.map(([key, entry]): LogLine => {
    const retake = retakeOf(session, entry);
    const from = entry.began ?? ends.get(retake?.key) ?? retake?.from ?? 0;
    ends.set(retake?.key, entry.at);
    const known = keptLines.get(entry);
    if (known?.line.key === key && known.from === from && known.device === device && isSameWork(known.session, session))
      return known.line;
    const line = lineOf({ session, device, from, isRetake: retake !== undefined }, key, entry);
    keptLines.set(entry, { session, device, from, line });
    return line;
  });
  const more = [...holdLines(session), ...retakeLines(session, device)];
  return more.length === 0 ? entries : [...entries, ...more].sort((a, b) => a.at - b.at);
};

interface KeptLine {
  readonly session: Session;
  readonly device: Device;
  readonly from: number;
  readonly line: LogLine;
}

const keptLines = new WeakMap<Entry, KeptLine>();

const isSameWork = (a: Session, b: Session): boolean => a.holds === b.holds && a.retakes === b.retakes;

const lineOf = (
  {
    session,
    device,
    from,
    isRetake,
  }: { readonly session: Session; readonly device: Device; readonly from: number; readonly isRetake: boolean },
  key: string,
  entry: Entry,
): LogLine => {
  // A heat, a soak or a cure runs on through a retake beside it.
  const isApart = !isRetake && entry.began === undefined;
  const apart = heldIn(session, from, entry.at) + (isApart ? againIn(session, from, entry.at) : 0);
  return {
    key,
    at: entry.at,
    words: entryWords(entry, device),
    took: Math.max(0, entry.at - from - apart),
    state: stateOf(entry),
    isReviewed: entry.reviewed === true,
  };
};

const holdLines = ({ holds }: Session): readonly LogLine[] =>
  Object.entries(holds ?? {}).map(([key, { from, to, reason }]) => ({
    key,
    at: from,
    words: `hold: ${reason}`,
    took: to > from ? to - from : undefined,
    state: 'hold',
    isReviewed: false,
  }));

/** A line where a retake begins, with how long it lasted, and one where the session goes on. */
const retakeLines = (session: Session, device: Device): readonly LogLine[] =>
  Object.entries(session.retakes ?? {}).flatMap(([key, { from, to, repeats, note }]): LogLine[] => {
    const again = session.entries[repeats ?? ''];
    const of = again ? entryWords(again, device) : note;
    const line = { state: 'retake', isReviewed: false } as const;
    const begins = { ...line, key, at: from, words: ['retake', of].filter(Boolean).join(': ') };
    if (to === undefined) return [{ ...begins, took: undefined }];
    return [
      { ...begins, took: to - from },
      { ...line, key: `${key}-end`, at: to, words: 'the session goes on', took: undefined },
    ];
  });

/** How much of a stretch was held [s]? Pauses do not overlap: one ends before the next begins. */
const heldIn = ({ holds }: Session, from: number, to: number): number =>
  Object.values(holds ?? {}).reduce(
    (sum, hold) => sum + Math.max(0, Math.min(to, hold.to) - Math.max(from, hold.from)),
    0,
  );

/** How much of a stretch was spent on doing something again [s], less the pauses in it? */
const againIn = (session: Session, from: number, to: number): number =>
  retakesOf(session).reduce((sum, retake) => {
    const [start, end] = [Math.max(from, retake.from), Math.min(to, retake.to)];
    return end > start ? sum + end - start - heldIn(session, start, end) : sum;
  }, 0);

const stateOf = (entry: Entry): LogLine['state'] => {
  if (entry.do === undefined) return entry.began === undefined ? 'unnamed' : 'going-on';
  if (entry.outcome === 'failed') return 'failed';
  return entry.naming === 'suggested' && entry.reviewed !== true ? 'suggested' : 'named';
};
