import type { RunSetting } from '../model/swap-run.ts';
import type { Branch } from './belief.ts';
import type { Belief } from './belief-graph.ts';
import { type BenchSetup, type Choice, never, type Place, settingKey, settingOf } from './bench-setup.ts';
import { type BenchRun, type BenchState, benchAfter, type PartState } from './bench-state.ts';

/** One result that a run may have, how likely it is, and the state after it. */
export interface RunBranch {
  readonly chance: number;
  readonly state: BenchState;
}

/** What one part may show in a run. */
export interface PartOutlook {
  readonly part: number;
  readonly foreign: boolean;
  readonly branches: readonly Branch[];
  /** What is known of it when another part hides it. */
  readonly unseen: () => Belief;
}

/** What may each part that is looked at show, were it alone? */
export const outlooksOf = (setup: BenchSetup, state: BenchState, run: BenchRun): readonly PartOutlook[] =>
  run.choices.flatMap((choice, part) => (choice ? [outlookOf(setup, state, { run, part, choice })] : []));

const outlookOf = (
  setup: BenchSetup,
  state: BenchState,
  { run, part, choice }: { run: BenchRun; part: number; choice: Choice },
): PartOutlook => {
  const placed = { part, host: run.host, firmware: run.firmware, choice };
  const { beliefs } = setup.parts[part] ?? never();
  const { belief } = state.parts[part] ?? never();
  const key = settingKey(placed);
  const setting = (): RunSetting => settingOf(setup, placed);
  return {
    part,
    foreign: choice.piece !== run.host,
    branches: beliefs.foresee(belief, setting, key),
    unseen: () => beliefs.unseen(belief, setting, key),
  };
};

/**
 * Which results may a run have? Each part shows what its belief foretells, independently. A foreign piece that fails stops the
 * device with the chance `hides`: alone it is then known for one that does; among several foreign ones nothing is known but that
 * they must not be fitted all together again. Their count is the product of the parts' outcomes: for few parts.
 */
export const runBranches = (setup: BenchSetup, state: BenchState, run: BenchRun): readonly RunBranch[] => {
  const after = benchAfter(setup, state, run);
  const outlooks = outlooksOf(setup, state, run);
  const { hides } = setup.problem;
  let hidden = 0;
  const seen: RunBranch[] = [];
  for (const { chance, shown } of combined(outlooks)) {
    const failing = outlooks.filter((outlook, index) => outlook.foreign && shown[index]?.outcome === 'failed').length;
    const open = chance * (1 - hides) ** failing;
    hidden += chance - open;
    if (open > 0) seen.push({ chance: open, state: whenSeen(after, run, { outlooks, shown }) });
  }
  return hidden > 1e-12 ? [...seen, ...hiddenBranches(after, run, { outlooks, chance: hidden })] : seen;
};

type Shown = readonly Branch[];

const combined = (outlooks: readonly PartOutlook[]): readonly { chance: number; shown: Shown }[] => {
  let all: { chance: number; shown: Shown }[] = [{ chance: 1, shown: [] }];
  for (const { branches } of outlooks)
    all = all.flatMap(({ chance, shown }) =>
      branches.map((branch) => ({ chance: chance * branch.chance, shown: [...shown, branch] })),
    );
  return all;
};

/** The state when every part showed what it did. */
export const whenSeen = (
  after: BenchState,
  run: BenchRun,
  { outlooks, shown }: { outlooks: readonly PartOutlook[]; shown: Shown },
): BenchState => {
  const parts = [...after.parts];
  for (const [index, { part, foreign }] of outlooks.entries()) {
    const known = shown[index]?.next ?? never();
    parts[part] = withKnown(parts[part] ?? never(), run.host, foreign ? { known, hides: false } : { known });
  }
  return { ...after, parts, hidden: after.hidden.filter((pool) => !pool.some((part) => parts[part]?.belief.troubled)) };
};

/** The states when a foreign piece stopped the device: one per outcome of the one that did, or one where it may be any of several. */
const hiddenBranches = (
  after: BenchState,
  run: BenchRun,
  { outlooks, chance }: { outlooks: readonly PartOutlook[]; chance: number },
): readonly RunBranch[] => {
  const pool = outlooks.filter(({ foreign }) => foreign);
  const [only] = pool;
  return [{ chance, state: whenHidden(after, run, { outlooks, culprit: pool.length === 1 ? only : undefined }) }];
};

/** The state when the device stopped: through the only foreign piece, or through any of several. */
export const whenHidden = (
  after: BenchState,
  run: BenchRun,
  { outlooks, culprit }: { outlooks: readonly PartOutlook[]; culprit: PartOutlook | undefined },
): BenchState => {
  const parts = [...after.parts];
  for (const { part, unseen } of outlooks)
    parts[part] = withKnown(parts[part] ?? never(), run.host, { known: unseen() });
  if (!culprit) {
    const pool = outlooks.flatMap(({ part, foreign }) => (foreign ? [part] : []));
    return { ...after, parts, hidden: [...after.hidden, pool] };
  }
  const known = culprit.branches.find(({ outcome }) => outcome === 'failed')?.next ?? culprit.unseen();
  parts[culprit.part] = withKnown(after.parts[culprit.part] ?? never(), run.host, { known, hides: true });
  return { ...after, parts };
};

const withKnown = (part: PartState, host: number, { known, hides }: { known: Belief; hides?: boolean }): PartState => {
  const place: Place = part.places[host] ?? never();
  const told = hides === undefined ? place : { ...place, hides };
  return { ...part, belief: known, places: part.places.with(host, told), stops: part.stops || hides === true };
};
