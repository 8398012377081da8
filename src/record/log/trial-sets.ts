/** One answer to "does it come?": with exactly this off it came, or did not; and the address of what shows it. */
export interface ShownTrial {
  readonly off: readonly string[];
  /** What must have been off besides, though the trial does not name it (failures only). */
  readonly besides?: readonly string[];
  readonly address: string;
  readonly evidence: readonly string[];
}

/** Trials none of which is implied by another of them. */
export interface TrialSets {
  readonly kept: readonly ShownTrial[];
  readonly add: (trial: ShownTrial) => void;
}

/** Collects successes: one with more off than another says nothing new. Cost of adding: what is off times the sets kept. */
export const smallestSets = (): TrialSets => antichain((known, added) => includes(added, known));

/** Collects failures: one with less off than another says nothing new. Cost of adding: what is off times the sets kept. */
export const largestSets = (): TrialSets => antichain((known, added) => includes(known, added));

type Off = ReadonlySet<string>;

const includes = (outer: Off, inner: Off): boolean => {
  if (inner.size > outer.size) return false;
  for (const id of inner) if (!outer.has(id)) return false;
  return true;
};

const antichain = (implies: (known: Off, other: Off) => boolean): TrialSets => {
  const kept: ShownTrial[] = [];
  const sets: Off[] = [];
  const add = (trial: ShownTrial): void => {
    const off = new Set([...trial.off, ...(trial.besides ?? [])]);
    if (sets.some((known) => implies(known, off))) return;
    for (let index = sets.length - 1; index >= 0; index--) {
      const known = sets[index];
      if (!known || !implies(off, known)) continue;
      sets.splice(index, 1);
      kept.splice(index, 1);
    }
    sets.push(off);
    kept.push(trial);
  };
  return { kept, add };
};
