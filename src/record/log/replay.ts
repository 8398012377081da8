import type { Device } from '../device/device.ts';
import { overriddenAddresses } from '../device/overridden.ts';
import type { Assessment } from '../schema/assessment.ts';
import { addressOf, type BenchRun, benchRuns, type LoggedAction, runActions, startsComplete } from './bench-log.ts';
import { SpecimenState } from './specimen-state.ts';

/** What does a replay find that does not fit? The path of the entry, what is wrong, and what to do. */
export interface ReplayFinding {
  readonly path: string;
  readonly kind: 'off-twice' | 'fitted-while-on' | 'undone-live' | 'came-while-held' | 'left-twice';
  readonly severity: 'error' | 'warning';
  readonly message: string;
  readonly value: string;
  readonly remedy: string;
}

/** Walks one run entry by entry; `visit` sees each action with the state before it. */
export const walkRun = (
  source: { readonly assessment: Assessment; readonly device: Device },
  run: BenchRun,
  visit: (action: LoggedAction, before: SpecimenState) => void,
): SpecimenState => {
  const state = new SpecimenState(source.device);
  for (const action of runActions(source, run)) {
    visit(action, state);
    state.apply(action);
  }
  return state;
};

/**
 * Does each specimen's log hold together? Nothing comes off twice without being refitted; and where the run began complete,
 * so that the whole state is known: nothing is fitted that was on, a connector undone while a battery is still connected is
 * flagged unless a decision frees it from isolation, and so is a part that came while something is logged as holding it. A
 * specimen that two sessions take over from the same one is an error too. Linear in the log.
 */
export const replayFindings = (assessment: Assessment, device: Device): readonly ReplayFinding[] => {
  const findings: ReplayFinding[] = leftTwice(assessment);
  const walked = new Set<string>();
  const overridden = overriddenAddresses(assessment);
  for (const run of benchRuns(assessment)) {
    const known = startsComplete(assessment, run);
    const fresh = new Set(run.sessions.filter((session) => !walked.has(session)));
    walkRun({ assessment, device }, run, (action, before) => {
      if (!fresh.has(action.session)) return;
      const at: Moment = { action, before, device, path: addressOf(action) };
      findings.push(...twice(at));
      if (known) findings.push(...fittedWhileOn(at), ...undoneLive(at, overridden), ...held(at));
    });
    for (const session of run.sessions) walked.add(session);
  }
  return findings;
};

interface Moment {
  readonly action: LoggedAction;
  readonly before: SpecimenState;
  readonly device: Device;
  readonly path: string;
}

/** Most entries show nothing amiss; one list for all of them. */
const NONE: readonly ReplayFinding[] = [];

const leftTwice = (assessment: Assessment): ReplayFinding[] => {
  const takers = new Map<string, string>();
  const findings: ReplayFinding[] = [];
  for (const [id, { startsAs }] of Object.entries(assessment.sessions ?? {})) {
    if (typeof startsAs !== 'object') continue;
    const other = takers.get(startsAs.leftBy);
    if (other === undefined) takers.set(startsAs.leftBy, id);
    else
      findings.push({
        path: `sessions/${id}/startsAs/leftBy`,
        kind: 'left-twice',
        severity: 'error',
        message: `session "${other}" already goes on from where "${startsAs.leftBy}" left the specimen`,
        value: startsAs.leftBy,
        remedy: `If "${other}" came first, write leftBy: ${other}.`,
      });
  }
  return findings;
};

/** What an entry lists or aims at comes off twice where it was off; a joint that only follows from prying a part is not counted again. */
const twice = ({ action, before, path }: Moment): readonly ReplayFinding[] => {
  const { effects, record } = action;
  if (effects.released.length + effects.freed.length + effects.aside.length === 0) return NONE;
  const stated = effects.released.filter((id) => record.released !== undefined || id === record.target);
  const again = [
    ...stated.filter((id) => before.released.has(id)),
    ...[...effects.freed, ...effects.aside].filter((id) => before.parts.get(id)?.state === 'free'),
  ];
  if (again.length === 0) return NONE;
  return again.map((id) => ({
    path,
    kind: 'off-twice',
    severity: 'error',
    message: `${id} comes off a second time on specimen ${action.specimen} without having been put back`,
    value: id,
    remedy: `log the refit of ${id} before this entry, or correct one of the two entries`,
  }));
};

const fittedWhileOn = ({ action, before, path }: Moment): ReplayFinding[] =>
  action.effects.refitted
    .filter((id) => !before.isOff(id))
    .map((id) => ({
      path,
      kind: 'fitted-while-on',
      severity: 'warning',
      message: `${id} is put back though the log does not have it off`,
      value: id,
      remedy: `log when ${id} came off, or say how the session found the specimen`,
    }));

const undoneLive = (
  { action, before, device, path }: Moment,
  overridden: ReadonlySet<string>,
): readonly ReplayFinding[] => {
  const { released } = action.effects;
  const isLive = (): boolean =>
    device.batteryConnectors.some((id) => !before.released.has(id) && !released.includes(id));
  const undone = released.filter((id) => {
    const fastener = device.fasteners.get(id);
    return fastener?.electrical && !fastener.batteryConnector && !overridden.has(`fasteners/${id}/requires/isolation`);
  });
  if (undone.length === 0 || !isLive()) return NONE;
  return undone.map((id) => ({
    path,
    kind: 'undone-live',
    severity: 'warning',
    message: `${id} was undone while the battery was still connected`,
    value: id,
    remedy: 'undo the battery connector first; if it was first, log it before this entry',
  }));
};

/** A free part hangs on nothing; a part laid aside may still hang on a cable long enough for it, or on what is aside with it. */
const held = ({ action, before, device, path }: Moment): readonly ReplayFinding[] => {
  if (action.effects.freed.length + action.effects.aside.length === 0) return NONE;
  const released = new Set(action.effects.released);
  const moved = [
    ...action.effects.freed.map((id) => ({ id, free: true })),
    ...action.effects.aside.map((id) => ({ id, free: false })),
  ];
  return moved.flatMap(({ id, free }) => {
    const holding = (device.parts.get(id)?.crossing ?? []).filter((name) => {
      if (before.released.has(name) || released.has(name)) return false;
      const fastener = device.fasteners.get(name);
      if (!fastener?.between) return false;
      return free || (!fastener.tether && !fastener.between.some((end) => before.parts.has(end)));
    });
    if (holding.length === 0) return [];
    return [
      {
        path,
        kind: 'came-while-held' as const,
        severity: 'warning' as const,
        message: `${id} came ${free ? 'free' : 'aside'} while ${holding.join(', ')} is not logged as released`,
        value: id,
        remedy: `log the release of ${holding.join(', ')}, or correct what it joins`,
      },
    ];
  });
};
