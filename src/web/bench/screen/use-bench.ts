import { useMemo, useState } from 'react';
import type { Device } from '#record/device/device';
import type { Patch } from '#record/patch/operation';
import type { Assessment, Session } from '#record/schema/assessment';
import type { Caution } from '#verdict/verdict';
import type { OpenAssessment } from '../../ledger/open-assessment.ts';
import * as patches from '../commands/bench-patches.ts';
import { isDescribed } from '../commands/new-thing.ts';
import { openOverlaps } from '../commands/overlap-patches.ts';
import { openRetake } from '../commands/retake-patches.ts';
import { type BenchThing, benchThings } from '../entry-line/bench-things.ts';
import { type LineReading, readLine } from '../entry-line/read-line.ts';
import { cautionsNow } from '../live/cautions-now.ts';
import { type LiveReadout, liveReadout } from '../live/live-readout.ts';
import { wavedOff } from '../suggestion/held-acts.ts';
import { type LastChance, type LastChanceView, lastChance } from '../suggestion/last-chance.ts';
import { routeHints } from '../suggestion/route-hints.ts';
import { type Suggestion, suggestMark } from '../suggestion/suggest-mark.ts';
import { type BenchActs, benchActs } from './bench-acts.ts';
import { type MarkToName, useMarkToName, useReadoutAt } from './mark-to-name.ts';
import { type HeldActs, useHeldActs } from './use-held-acts.ts';
import { type Absence, useSessionClock } from './use-session-clock.ts';

/** One bench session on the screen: what it shows, and what can be done. */
export interface Bench {
  readonly session: Session;
  readonly readout: LiveReadout;
  readonly things: readonly BenchThing[];
  readonly goal: string | undefined;
  /** The mark to be named next. */
  readonly mark: string | undefined;
  readonly marks: Pick<MarkToName, 'goTo' | 'step'>;
  readonly suggestion: Suggestion | undefined;
  readonly question: LastChance | undefined;
  /** Acts that wait for it. */
  readonly waiting: HeldActs['waiting'];
  /** How many questions were put in this session and not tried. */
  readonly notTried: number;
  readonly cautions: readonly Caution[];
  readonly hold: ReturnType<typeof patches.openHold>;
  readonly retake: ReturnType<typeof openRetake>;
  readonly overlaps: ReturnType<typeof openOverlaps>;
  /** What the clocks did that should be known, in words. */
  readonly news: string | undefined;
  /** Between which session times [s] nobody was here; can be made a pause. */
  readonly away: Absence | undefined;
  readonly now: () => number;
  readonly read: (line: string) => LineReading;
  /** What was noted of a damage, line by line. */
  readonly damageNotes: (key: string) => readonly string[];
  readonly acts: BenchActs;
}

/** The state and the acts of one bench session. */
export const useBench = (
  open: OpenAssessment,
  document: Assessment,
  { session: key, isOnAir }: { readonly session: string; readonly isOnAir: boolean },
): Bench => {
  const session = document.sessions?.[key] as Session;
  const { forget, putOn, ...clock } = useSessionClock(session);
  const [goal, setGoal] = useState(() => lastGoal(session));
  const readout = useMemo(() => liveReadout(document, key, goal), [document, key, goal]);
  const things = useThings(document, readout.device);
  const put = (patch: Patch): void => void (patch.length > 0 && open.change(patch));
  const view = { document, session: key, readout };
  const held = useHeldActs(view, put);
  const { mark, isNewest, marks, seen, suggestion } = useMarkInHand({ view, goal, held });
  const ahead = isNewest && !isOnAir ? lastChance(view, suggestion?.naming) : undefined;
  const acts = benchActs({
    place: { document, session: key },
    clock: clock.now,
    state: { goal, mark, isNewest, suggestion, readout },
    put,
    setGoal,
    putOff: marks.putOff,
    goTo: marks.goTo,
    isOnAir,
    held,
    forgetNews: forget,
    away: clock.away,
    putClockOn: putOn,
  });
  return {
    session,
    readout,
    things,
    goal,
    mark,
    marks,
    suggestion,
    question: held.question ?? ahead,
    waiting: held.waiting,
    notTried: wavedOff(document, key),
    cautions: useMemo(() => cautionsNow(document, readout, suggestion?.naming), [document, readout, suggestion]),
    ...useMemo(() => goingOn(session), [session]),
    ...clock,
    read: (line) => readLine(line, things, { ...hintsOf(seen), isDescribed: isDescribed(document) }),
    damageNotes: (damage) => (document.damage?.[damage]?.note ?? '').split('\n').filter(Boolean),
    acts,
  };
};

/** What can be named on this bench: the same while its tools and its device are. */
const useThings = ({ tools }: Assessment, device: Device): readonly BenchThing[] =>
  useMemo(() => benchThings(tools === undefined ? {} : { tools }, device), [tools, device]);

/** What goes on in a session beside the next act: a pause, a retake, heat or solvent at work. */
const goingOn = (session: Session): Pick<Bench, 'hold' | 'retake' | 'overlaps'> => ({
  hold: patches.openHold(session),
  retake: openRetake(session),
  overlaps: openOverlaps(session),
});

/** The mark to be named, what the bench looked like then, and what it may have been: nothing while an act waits. */
const useMarkInHand = ({
  view,
  goal,
  held,
}: {
  readonly view: LastChanceView;
  readonly goal: string | undefined;
  readonly held: HeldActs;
}) => {
  const { document, readout } = view;
  const session = document.sessions?.[view.session] as Session;
  const isWaiting = (key: string): boolean => held.waiting.some((act) => act.mark === key);
  const { mark, ...marks } = useMarkToName(
    session,
    readout.unnamed.filter((key) => !isWaiting(key)),
  );
  const seen = useReadoutAt({ document, session: view.session, mark }, readout, goal);
  const proposed = useSuggestion(document, seen, goal);
  const isNewest = useMemo(() => isLastLogged(session, mark), [session, mark]);
  return {
    mark,
    isNewest,
    marks,
    seen,
    suggestion: held.waiting.length > 0 ? undefined : proposed,
  };
};

/** Was nothing logged after this mark? What was passed cannot be tried any more. True where there is no mark to name. */
const isLastLogged = ({ entries }: Session, mark: string | undefined): boolean => {
  const at = entries[mark ?? '']?.at ?? Number.POSITIVE_INFINITY;
  return Object.values(entries).every((entry) => entry.at <= at);
};

const useSuggestion = (document: Assessment, seen: LiveReadout, goal: string | undefined) =>
  useMemo(() => {
    const before = document.product.predecessorOrder ?? [];
    return suggestMark(seen, { goal, route: routeHints(document, goal), before });
  }, [document, seen, goal]);

const hintsOf = ({ off, recent, device }: LiveReadout) => ({
  off,
  recent: recent.flatMap(({ target }) => target ?? []),
  lastSet: recent.find(({ target }) => device.fasteners.has(target ?? '')),
});

const lastGoal = (session: Session): string | undefined => {
  const [last] = Object.values(session.entries).sort((a, b) => b.at - a.at);
  const goal = last?.goal;
  return Array.isArray(goal) ? goal[0] : goal;
};
