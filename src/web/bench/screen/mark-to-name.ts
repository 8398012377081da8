import { useMemo, useState } from 'react';
import type { Assessment, Session } from '#record/schema/assessment';
import { type LiveReadout, liveReadout } from '../live/live-readout.ts';

/** Which mark is to be named, and how another one becomes it. */
export interface MarkToName {
  /** The one gone to, or what follows it; else the last without a name that was not put off. */
  readonly mark: string | undefined;
  readonly putOff: () => void;
  /** Makes a mark the one to be named; undefined goes back to the newest. */
  readonly goTo: (mark: string | undefined) => void;
  /** Goes to the mark without a name before (-1) or after (1) this one, round the ends. */
  readonly step: (by: -1 | 1) => void;
}

/** The mark to be named. Once one was gone to, naming goes on with the one after it, until there is none. */
export const useMarkToName = ({ entries }: Session, unnamed: readonly string[]): MarkToName => {
  const [late, setLate] = useState<ReadonlySet<string>>(new Set());
  const [chosen, setChosen] = useState<string>();
  const after = (key: string): string | undefined =>
    unnamed.find((other) => (entries[other]?.at ?? 0) > (entries[key]?.at ?? Number.POSITIVE_INFINITY));
  const walked = chosen === undefined || unnamed.includes(chosen) ? chosen : after(chosen);
  const mark = walked ?? unnamed.findLast((entry) => !late.has(entry));
  return {
    mark,
    putOff: () => {
      if (mark === undefined) return;
      setLate(new Set([...late, mark]));
      setChosen(walked === undefined ? undefined : after(mark));
    },
    goTo: setChosen,
    step: (by) => {
      const from = mark === undefined ? (by > 0 ? -1 : 0) : unnamed.indexOf(mark);
      setChosen(unnamed.at((from + by) % unnamed.length));
    },
  };
};

/**
 * What did the bench look like when a mark was made? What was logged after it is left out, so that naming an earlier mark is
 * seen from its own time. The readout of now where nothing followed.
 */
export const useReadoutAt = (
  place: { readonly document: Assessment; readonly session: string; readonly mark: string | undefined },
  now: LiveReadout,
  goal: string | undefined,
): LiveReadout => {
  const { document, session, mark } = place;
  return useMemo(() => {
    const record = document.sessions?.[session];
    const at = record?.entries[mark ?? '']?.at;
    if (!record || at === undefined) return now;
    const all = Object.entries(record.entries);
    const kept = all.filter(([, entry]) => entry.at <= at || entry.corrects !== undefined);
    const isLast = all.every(([, entry]) => entry.at <= at || entry.do === undefined);
    if (isLast) return now;
    const sessions = { ...document.sessions, [session]: { ...record, entries: Object.fromEntries(kept) } };
    return { ...liveReadout({ ...document, sessions }, session, goal), device: now.device };
  }, [document, session, mark, now, goal]);
};
