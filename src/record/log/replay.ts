import type { Device } from '../device/device.ts';
import type { Assessment } from '../schema/assessment.ts';
import { type BenchRun, benchRuns, type LoggedAction, loggedActions } from './bench-log.ts';
import { SpecimenState } from './specimen-state.ts';

/** What does a replay find that does not fit? The path of the entry, what is wrong, and what to do. */
export interface ReplayFinding {
  readonly path: string;
  readonly kind: 'off-twice' | 'fitted-while-on' | 'undone-live' | 'came-while-held' | 'part-unknown';
  readonly severity: 'error' | 'warning';
  readonly message: string;
  readonly value: string;
  readonly remedy: string;
}

/** Walks one run entry by entry; `visit` sees each action with the state before it. */
export const walkRun = (
  { assessment, device }: { readonly assessment: Assessment; readonly device: Device },
  run: BenchRun,
  visit: (action: LoggedAction, before: SpecimenState) => void,
): SpecimenState => {
  const state = new SpecimenState(device);
  for (const session of run.sessions)
    for (const action of loggedActions(assessment, device, session)) {
      visit(action, state);
      state.apply(action);
    }
  return state;
};

/**
 * Does each specimen's log hold together? Nothing comes off twice without being refitted, nothing is fitted that was on,
 * a connector undone while a battery is still connected is flagged, and so is a part that came while something is logged as
 * holding it. Linear in the log.
 */
export const replayFindings = (assessment: Assessment, device: Device): readonly ReplayFinding[] => {
  const findings: ReplayFinding[] = [];
  const batteryConnectors = [...device.fasteners.values()]
    .filter((fastener) => fastener.batteryConnector)
    .map((fastener) => fastener.id);
  for (const run of benchRuns(assessment))
    walkRun({ assessment, device }, run, (action, before) => {
      const path = `sessions/${action.session}/entries/${action.entry}`;
      findings.push(
        ...twice(action, before, path),
        ...fittedWhileOn(action, before, path),
        ...live(action, before, { path, device, batteryConnectors }),
        ...held(action, before, path, device),
      );
    });
  return findings;
};

const twice = (action: LoggedAction, before: SpecimenState, path: string): ReplayFinding[] => {
  const again = [
    ...action.effects.released.filter((id) => before.released.has(id)),
    ...action.effects.freed.filter((id) => before.parts.get(id)?.state === 'free'),
  ];
  return again.map((id) => ({
    path,
    kind: 'off-twice',
    severity: 'error',
    message: `${id} comes off a second time on specimen ${action.specimen} without having been put back`,
    value: id,
    remedy: `log the refit of ${id} before this entry, or correct one of the two entries`,
  }));
};

const fittedWhileOn = (action: LoggedAction, before: SpecimenState, path: string): ReplayFinding[] =>
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

const live = (
  action: LoggedAction,
  before: SpecimenState,
  context: { path: string; device: Device; batteryConnectors: readonly string[] },
): ReplayFinding[] => {
  const { path, device, batteryConnectors } = context;
  if (
    batteryConnectors.length === 0 ||
    batteryConnectors.some((id) => before.released.has(id) || action.effects.released.includes(id))
  )
    return [];
  return action.effects.released
    .filter((id) => device.fasteners.get(id)?.electrical === true)
    .map((id) => ({
      path,
      kind: 'undone-live',
      severity: 'warning',
      message: `${id} was undone while the battery was still connected`,
      value: id,
      remedy: 'undo the battery connector first; if it was first, log it before this entry',
    }));
};

const held = (action: LoggedAction, before: SpecimenState, path: string, device: Device): ReplayFinding[] =>
  action.effects.freed.flatMap((id) => {
    const holding = (device.parts.get(id)?.crossing ?? []).filter(
      (fastener) => !before.released.has(fastener) && !action.effects.released.includes(fastener),
    );
    if (holding.length === 0) return [];
    return [
      {
        path,
        kind: 'came-while-held' as const,
        severity: 'warning' as const,
        message: `${id} came free while ${holding.join(', ')} is not logged as released`,
        value: id,
        remedy: `log the release of ${holding.join(', ')}, or correct what it joins`,
      },
    ];
  });
