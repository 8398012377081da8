import type { SwapRun } from '../model/swap-run.ts';
import {
  excludedBy,
  type Finding,
  hasStanding,
  troubledIn,
  type Weighed,
  type Weighing,
  weighedWith,
} from './weighing.ts';

/** The weighing of each part, by part id. */
export type Weighings = ReadonlyMap<string, Weighing>;

/** What is known of each part's runs, by part id. */
export type AllWeighed = ReadonlyMap<string, Weighed>;

/**
 * What did each run show of each part, once runs with several parts are told apart as far as they can be? A run that failed as a
 * whole is laid to one part when every other part of it is shown to have passed there: seen to, or all that could have failed it is
 * excluded by other runs. What is found so may exclude more, and so on until nothing changes. Nothing is ever found clean because
 * another part failed. Runs and parts in any order; the result does not depend on it.
 */
export const attributePools = (weighings: Weighings): AllWeighed => {
  const entries = [...weighings].map(([part, weighing]) => {
    return [part, weighedWith(weighing, weighing.runs.map(firstFinding))] as const;
  });
  let all: AllWeighed = new Map(entries);
  for (let next = attributeOnce(all); next; next = attributeOnce(all)) all = next;
  return all;
};

const isPooled = ({ attributed, outcome }: SwapRun): boolean =>
  !attributed && (outcome === 'failed' || outcome === 'reduced');

const firstFinding = (run: SwapRun): Finding =>
  isPooled(run) ? { outcome: 'unseen', basis: [] } : { outcome: run.outcome, basis: [run.id] };

/** Every part once more, with what is known now. Undefined where nothing new comes of it. */
const attributeOnce = (all: AllWeighed): AllWeighed | undefined => {
  let isChanged = false;
  const next = [...all].map(([part, weighed]) => {
    const findings = weighed.runs.map((run, place) => {
      const finding = weighed.findings[place] ?? firstFinding(run);
      if (!isPooled(run) || finding.outcome !== 'unseen') return finding;
      const basis = othersCleared(run, all);
      return basis ? { outcome: run.outcome, basis: [run.id, ...basis] } : finding;
    });
    const isNew = findings.some((finding, place) => finding !== weighed.findings[place]);
    isChanged ||= isNew;
    return [part, isNew ? weighedWith(weighed, findings) : weighed] as const;
  });
  return isChanged ? new Map(next) : undefined;
};

/** On which runs does it rest that no other part of the run can have failed? Undefined where one can. */
const othersCleared = (run: SwapRun, all: AllWeighed): readonly string[] | undefined => {
  const basis: string[] = [];
  for (const other of membersBeside(run, all)) {
    const cleared = clearedIn(run, all.get(other));
    if (!cleared) return undefined;
    basis.push(...cleared);
  }
  return [...new Set(basis)].sort();
};

const membersBeside = (run: SwapRun, all: AllWeighed): readonly string[] => {
  const sharing = [...all].filter(([, { runs }]) => runs.some((other) => isSameStart(run, other)));
  return [...new Set([...run.together, ...sharing.map(([part]) => part)])].filter((part) => part !== run.part);
};

const isSameStart = (a: SwapRun, b: SwapRun): boolean => a.order === b.order && a.host === b.host;

/** Which runs show that a part passed in a run made with others? Where nothing agrees with all its runs, none do. */
const clearedIn = (run: SwapRun, weighed: Weighed | undefined): readonly string[] | undefined => {
  const place = weighed?.runs.findIndex((other) => isSameStart(run, other)) ?? -1;
  const finding = weighed?.findings[place];
  if (!weighed || !finding) return undefined;
  if (finding.outcome === 'passed') return finding.basis;
  if (finding.outcome !== 'unseen' || !hasStanding(weighed)) return undefined;
  return excludedBy(weighed, troubledIn(weighed, place));
};
