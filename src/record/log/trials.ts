import type { Device } from '../device/device.ts';
import type { Assessment, Trial } from '../schema/assessment.ts';
import { benchRuns, type LoggedAction, startsComplete } from './bench-log.ts';
import { walkRun } from './replay.ts';
import type { OffMark, SpecimenState } from './specimen-state.ts';

/** One answer to "does it come?": with exactly this off it came, or did not; and the address of what shows it. */
export interface ShownTrial {
  readonly off: readonly string[];
  readonly address: string;
  readonly evidence: readonly string[];
}

/** All that is shown of one part's or fastener's reachability. */
export interface SubjectTrials {
  readonly positive: readonly ShownTrial[];
  readonly negative: readonly ShownTrial[];
  /** The whole function, by sight; undefined when nobody looked. */
  readonly sight: readonly (readonly string[])[] | undefined;
}

const NO_TRIALS: SubjectTrials = { positive: [], negative: [], sight: undefined };

/**
 * What do the trials and the log show of every part and fastener? A log entry that releases or frees something is a positive
 * trial with all that was off then, less what was done for another goal; a blocked attempt is a negative one with all that
 * was off. A trial that came but damaged something counts only by a ruling. Quadratic in what is off.
 */
export const trialsOf = (assessment: Assessment, device: Device): ReadonlyMap<string, SubjectTrials> => {
  const found = new Map<string, { positive: ShownTrial[]; negative: ShownTrial[] }>();
  const at = (id: string): { positive: ShownTrial[]; negative: ShownTrial[] } => {
    const existing = found.get(id);
    if (existing) return existing;
    const fresh = { positive: [], negative: [] };
    found.set(id, fresh);
    return fresh;
  };
  for (const run of benchRuns(assessment)) {
    if (!startsComplete(assessment, run)) continue;
    walkRun({ assessment, device }, run, (action, before) => {
      const { target } = action.record;
      for (const id of cameOff(action, before, device))
        at(id).positive.push(loggedTrial(action, boundBy(action, before, id)));
      if (action.record.outcome === 'failed' && action.record.because === 'blocked' && target !== undefined)
        at(target).negative.push(
          loggedTrial(
            action,
            before.off().map(([id]) => id),
          ),
        );
    });
  }
  for (const id of [...device.parts.keys(), ...device.fasteners.keys()]) {
    const record = device.parts.get(id)?.record ?? device.fasteners.get(id)?.record;
    const kind = device.parts.has(id) ? 'parts' : 'fasteners';
    for (const [name, trial] of Object.entries(record?.trials ?? {}))
      place(trial, `${kind}/${id}/trials/${name}`, at(id));
  }
  return collect(found, device);
};

const collect = (
  found: ReadonlyMap<string, { positive: ShownTrial[]; negative: ShownTrial[] }>,
  device: Device,
): ReadonlyMap<string, SubjectTrials> => {
  const all = new Map<string, SubjectTrials>();
  for (const id of [...device.parts.keys(), ...device.fasteners.keys()]) {
    const record = device.parts.get(id)?.record ?? device.fasteners.get(id)?.record;
    const trials = found.get(id) ?? NO_TRIALS;
    all.set(id, { positive: minimal(trials.positive), negative: maximal(trials.negative), sight: record?.behind });
  }
  return all;
};

const place = (trial: Trial, address: string, into: { positive: ShownTrial[]; negative: ShownTrial[] }): void => {
  const shown: ShownTrial = { off: trial.off, address, evidence: trial.evidence ?? [] };
  if (trial.came === 'yes' || trial.ruling === 'counts-as-came') into.positive.push(shown);
  else if (trial.came === 'no' || trial.ruling === 'counts-as-not') into.negative.push(shown);
};

/** What came off by this action, itself or along with its carrier's own move? Contents that only ride along are no trial of theirs. */
const cameOff = (action: LoggedAction, before: SpecimenState, device: Device): readonly string[] => {
  const { released, freed, aside } = action.effects;
  return [
    ...released.filter((id) => device.fasteners.has(id)),
    ...[...freed, ...aside].filter((id) => device.parts.has(id)),
  ].filter((id) => !before.released.has(id));
};

const loggedTrial = (action: LoggedAction, off: readonly string[]): ShownTrial => ({
  off,
  address: `sessions/${action.session}/entries/${action.entry}`,
  evidence: action.record.evidence ?? [],
});

/** What was off that binds this trial? All but what was done for another goal; together with what the same entry released for it. */
const boundBy = (action: LoggedAction, before: SpecimenState, self: string): readonly string[] => {
  const bound = before
    .off()
    .filter(([id, mark]) => id !== self && binds(mark, action.goals))
    .map(([id]) => id);
  const together = action.effects.freed.includes(self)
    ? action.effects.released.filter((id) => !bound.includes(id))
    : [];
  return [...bound, ...together];
};

const binds = (mark: OffMark, goals: readonly string[] | undefined): boolean =>
  mark.goals === undefined || goals === undefined || mark.goals.some((goal) => goals.includes(goal));

const subset = (a: readonly string[], b: ReadonlySet<string>): boolean => a.every((id) => b.has(id));

/** Which trials are not implied by one with less off? */
const minimal = (trials: readonly ShownTrial[]): readonly ShownTrial[] => {
  const sets = trials.map((trial) => new Set(trial.off));
  return trials.filter(
    (trial, i) =>
      !trials.some(
        (other, j) =>
          j !== i && subset(other.off, sets[i] ?? new Set()) && (other.off.length < trial.off.length || j < i),
      ),
  );
};

/** Which failures are not implied by one with more off? */
const maximal = (trials: readonly ShownTrial[]): readonly ShownTrial[] => {
  const sets = trials.map((trial) => new Set(trial.off));
  return trials.filter(
    (trial, i) =>
      !trials.some(
        (other, j) =>
          j !== i && subset(trial.off, sets[j] ?? new Set()) && (other.off.length > trial.off.length || j < i),
      ),
  );
};

/** Which trials contradict each other? A failure with at least as much off as a success, or as a set seen to be enough. */
export const contradictions = (
  trials: ReadonlyMap<string, SubjectTrials>,
): readonly { readonly subject: string; readonly came: string; readonly didNot: string }[] => {
  const found: { subject: string; came: string; didNot: string }[] = [];
  for (const [subject, { positive, negative, sight }] of trials)
    for (const failure of negative) {
      const off = new Set(failure.off);
      for (const success of positive)
        if (subset(success.off, off)) found.push({ subject, came: success.address, didNot: failure.address });
      for (const set of sight ?? [])
        if (subset(set, off))
          found.push({ subject, came: `${subject} behind [${set.join(', ')}]`, didNot: failure.address });
    }
  return found;
};
