import { sentence } from '#quantity/counts';
import type { Device } from '#record/device/device';
import { effectsOf } from '#record/log/effects';
import { trialsOf } from '#record/log/trials';
import type { Assessment } from '#record/schema/assessment';
import { PRIORITY_ROLES } from '#record/schema/priority-roles';
import type { Naming } from '../commands/bench-patches.ts';
import { type LiveReadout, nameIn } from '../live/live-readout.ts';

/** A question that can be answered now and not after the next act. */
export interface LastChance {
  /** The part that is tried. */
  readonly subject: string;
  /** What is still in and would come away. */
  readonly stillIn: readonly string[];
  readonly statement: string;
  readonly question: string;
}

/** What the question is seen from: the record, the session, and what is off. */
export interface LastChanceView {
  readonly document: Assessment;
  readonly session: string;
  readonly readout: LiveReadout;
}

const PRIORITY: ReadonlySet<string> = new Set(PRIORITY_ROLES);

/** Does an act make a question unanswerable? The first of {@link lastChances}. */
export const lastChance = (view: LastChanceView, next: Naming | undefined): LastChance | undefined =>
  lastChances(view, next)[0];

/**
 * Which questions does an act make unanswerable, in whatever way it is entered? When parts come away by it while a priority
 * part, with all that is recorded as holding it released, is still in, and nobody has tried or looked whether that comes first.
 * The release of a fastener asks nothing: it would put a question before every screw. Only where the run began complete, since
 * else nobody knows what an answer would be the answer to. Asked neutrally: it says what is in, and neither what an answer would
 * do nor which is hoped for.
 */
export const lastChances = (view: LastChanceView, next: Naming | undefined): readonly LastChance[] => {
  const { device, off, isStartKnown } = view.readout;
  if (next === undefined || !isStartKnown) return [];
  const { freed, aside } = effectsOf(next, device);
  const leaving = [...new Set([...freed, ...aside])].filter((key) => device.parts.has(key) && !off.has(key));
  if (leaving.length === 0) return [];
  return [...device.parts.values()].flatMap((part) => {
    if (!PRIORITY.has(part.role ?? '') || off.has(part.id) || part.record?.behind !== undefined) return [];
    const isReady = part.crossing.length > 0 && part.crossing.every((key) => off.has(key));
    const isAlong = leaving.some((key) => key === part.id || device.parts.get(key)?.cluster.has(part.id));
    const stillIn = leaving.filter((key) => !part.cluster.has(key));
    if (!isReady || isAlong || stillIn.length === 0) return [];
    const chance = asQuestion(device, part.id, stillIn);
    return isAnswered(view, chance) ? [] : [chance];
  });
};

const asQuestion = (device: Device, subject: string, stillIn: readonly string[]): LastChance => {
  const nameOf = nameIn(device);
  return {
    subject,
    stillIn,
    statement: `${sentence(stillIn.map(nameOf).join(', '))}: still in.`,
    question: `Does ${nameOf(subject)} come with ${stillIn.length === 1 ? 'it' : 'them'} in?`,
  };
};

/**
 * Was the part tried with these still in, in a trial or as any log shows it; or was this put and waved off in this session, on
 * whichever screen?
 */
const isAnswered = ({ document, session, readout }: LastChanceView, { subject, stillIn }: LastChance): boolean => {
  const isWithThem = ({ off }: { readonly off: readonly string[] }): boolean =>
    !stillIn.some((key) => off.includes(key));
  const part = document.parts?.[subject];
  const isWaved = Object.values(part?.untried ?? {}).some(
    (one) => one.session === session && stillIn.every((key) => one.stillIn.includes(key)),
  );
  if (isWaved || Object.values(part?.trials ?? {}).some(isWithThem)) return true;
  const shown = shownBy(document, readout.device).get(subject);
  return [...(shown?.positive ?? []), ...(shown?.negative ?? [])].some(isWithThem);
};

const known = new WeakMap<Assessment, ReturnType<typeof trialsOf>>();

/** What trials and logs show, once a document: the question is asked anew on every drawing. */
const shownBy = (document: Assessment, device: Device): ReturnType<typeof trialsOf> => {
  const shown = known.get(document) ?? trialsOf(document, device);
  known.set(document, shown);
  return shown;
};
