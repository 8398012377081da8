import type { Device } from '../device/device.ts';
import type { Assessment, Trial } from '../schema/assessment.ts';
import { addressOf, benchRuns, type LoggedAction, startsComplete } from './bench-log.ts';
import { damageIndex, damageVerdictAt } from './damage-index.ts';
import { binds } from './goal-binds.ts';
import { offBesides } from './off-closure.ts';
import { walkRun } from './replay.ts';
import type { SpecimenState } from './specimen-state.ts';
import { largestSets, type ShownTrial, smallestSets, type TrialSets } from './trial-sets.ts';

export type { ShownTrial } from './trial-sets.ts';

/** All that is shown of one part's or fastener's reachability. */
export interface SubjectTrials {
  /** Successes that no other with less off implies. */
  readonly positive: readonly ShownTrial[];
  /** Failures that no other with more off implies. */
  readonly negative: readonly ShownTrial[];
  /** The whole function, by sight; undefined when nobody looked. What is known not to exist is left out of its sets. */
  readonly sight: readonly (readonly string[])[] | undefined;
}

/** What is shown of something nobody tried or looked at? */
export const NO_TRIALS: SubjectTrials = { positive: [], negative: [], sight: undefined };

/**
 * What do the trials and the log show of every part and fastener? A log entry that releases or frees something is a positive
 * trial with all that was off then, less what was done for another goal; a blocked attempt is a negative one with all that
 * was off. What came but damaged something counts only by a ruling. A run that did not start complete shows nothing, since
 * what was off is not known. Cost: entries times what is off.
 */
export const trialsOf = (assessment: Assessment, device: Device): ReadonlyMap<string, SubjectTrials> => {
  const gathered = new TrialGatherer(assessment, device);
  for (const run of benchRuns(assessment))
    if (startsComplete(assessment, run))
      walkRun({ assessment, device }, run, (action, before) => gathered.logged(action, before));
  for (const id of device.parts.keys()) gathered.recorded(`parts/${id}`, id, device.parts.get(id)?.record?.trials);
  for (const id of device.fasteners.keys())
    gathered.recorded(`fasteners/${id}`, id, device.fasteners.get(id)?.record?.trials);
  return gathered.result();
};

class TrialGatherer {
  private readonly assessment: Assessment;
  private readonly device: Device;
  private readonly found = new Map<string, { positive: TrialSets; negative: TrialSets }>();

  constructor(assessment: Assessment, device: Device) {
    this.assessment = assessment;
    this.device = device;
  }

  logged(action: LoggedAction, before: SpecimenState): void {
    const { record } = action;
    if (damageVerdictAt(damageIndex(this.assessment, this.device), addressOf(action)) === 'whole')
      for (const id of cameOff(action, before, this.device))
        this.at(id).positive.add(loggedTrial(action, boundBy(action, before, id)));
    if (record.outcome === 'failed' && record.because === 'blocked' && record.target !== undefined)
      this.at(record.target).negative.add(this.failed(loggedTrial(action, everythingOff(before))));
  }

  recorded(owner: string, id: string, trials: Readonly<Record<string, Trial>> | undefined): void {
    for (const [name, trial] of Object.entries(trials ?? {})) {
      const came = trial.came === 'damaged' ? (trial.ruling ?? 'undecided') : trial.came;
      const off = trial.off.filter((other) => other !== id && this.exists(other));
      const shown: ShownTrial = { off, address: `${owner}/trials/${name}`, evidence: trial.evidence ?? [] };
      if (came === 'yes' || came === 'counts-as-came') this.at(id).positive.add(shown);
      else if (came !== 'undecided') this.at(id).negative.add(this.failed(shown));
    }
  }

  result(): ReadonlyMap<string, SubjectTrials> {
    const all = new Map<string, SubjectTrials>();
    for (const id of [...this.device.parts.keys(), ...this.device.fasteners.keys()]) {
      const sets = this.found.get(id);
      const record = this.device.parts.get(id)?.record ?? this.device.fasteners.get(id)?.record;
      const sight = record?.behind?.map((set) => set.filter((other) => other !== id && this.exists(other)));
      all.set(id, { positive: sets?.positive.kept ?? [], negative: sets?.negative.kept ?? [], sight });
    }
    return all;
  }

  private failed(trial: ShownTrial): ShownTrial {
    return { ...trial, besides: offBesides(trial.off, this.device) };
  }

  private exists(id: string): boolean {
    return this.device.parts.has(id) || this.device.fasteners.has(id);
  }

  private at(id: string): { positive: TrialSets; negative: TrialSets } {
    const known = this.found.get(id);
    if (known) return known;
    const fresh = { positive: smallestSets(), negative: largestSets() };
    this.found.set(id, fresh);
    return fresh;
  }
}

/** What came off by this action itself? Contents that only ride along are no trial of theirs, nor is what was off already. */
const cameOff = (action: LoggedAction, before: SpecimenState, device: Device): readonly string[] => {
  const { released, freed, aside } = action.effects;
  return [
    ...released.filter((id) => device.fasteners.has(id) && !before.released.has(id)),
    ...[...freed, ...aside].filter((id) => device.parts.has(id) && before.parts.get(id)?.state !== 'free'),
  ];
};

const everythingOff = (before: SpecimenState): readonly string[] => before.off().map(([id]) => id);

const loggedTrial = (action: LoggedAction, off: readonly string[]): ShownTrial => ({
  off,
  address: addressOf(action),
  evidence: action.record.evidence ?? [],
});

/** What was off that binds this trial? All but what was done for another goal; for a part, also what the same entry released. */
const boundBy = (action: LoggedAction, before: SpecimenState, self: string): readonly string[] => {
  const bound: string[] = [];
  for (const [id, mark] of before.off()) if (id !== self && binds(mark, self, action.goals)) bound.push(id);
  const { released, freed, aside } = action.effects;
  const together = freed.includes(self) || aside.includes(self) ? released : [];
  return [...new Set([...bound, ...together])];
};

/** Which trials contradict each other? A failure with at least as much off as a success, or as a set seen to be enough. */
export const contradictions = (
  trials: ReadonlyMap<string, SubjectTrials>,
): readonly { readonly subject: string; readonly came: string; readonly didNot: string }[] => {
  const found: { subject: string; came: string; didNot: string }[] = [];
  for (const [subject, { positive, negative, sight }] of trials)
    for (const failure of negative) {
      const off = new Set([...failure.off, ...(failure.besides ?? [])]);
      const within = (set: readonly string[]): boolean => set.every((id) => off.has(id));
      for (const success of positive)
        if (within(success.off)) found.push({ subject, came: success.address, didNot: failure.address });
      for (const set of sight?.length === 0 ? [[]] : (sight ?? []))
        if (within(set))
          found.push({ subject, came: `${subject} behind [${set.join(', ')}]`, didNot: failure.address });
    }
  return found;
};
