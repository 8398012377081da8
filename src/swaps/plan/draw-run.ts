import type { SeededNumbers } from '#quantity/seeded-numbers';
import type { Branch } from './belief.ts';
import { type BenchSetup, never } from './bench-setup.ts';
import { type BenchRun, type BenchState, benchAfter } from './bench-state.ts';
import { outlooksOf, type PartOutlook, whenHidden, whenSeen } from './run-branches.ts';

/** Which state does a run lead to in one drawn case? The chances are those that the beliefs foretell. */
export const drawRun = (
  setup: BenchSetup,
  state: BenchState,
  { run, draw }: { run: BenchRun; draw: SeededNumbers },
): BenchState => {
  const after = benchAfter(setup, state, run);
  const outlooks = outlooksOf(setup, state, run);
  const shown = outlooks.map(({ branches }) => drawn(branches, draw()));
  const failing = outlooks.filter(({ foreign }, index) => foreign && shown[index]?.outcome === 'failed').length;
  const isHidden = failing > 0 && draw() < 1 - (1 - setup.problem.hides) ** failing;
  return isHidden
    ? whenHidden(after, run, { outlooks, culprit: onlyForeign(outlooks) })
    : whenSeen(after, run, { outlooks, shown });
};

/** The only foreign piece in a run: if the device stopped, it was that one. */
const onlyForeign = (outlooks: readonly PartOutlook[]): PartOutlook | undefined => {
  const foreign = outlooks.filter((outlook) => outlook.foreign);
  return foreign.length === 1 ? foreign[0] : undefined;
};

const drawn = (branches: readonly Branch[], number: number): Branch => {
  let sum = 0;
  for (const branch of branches) {
    sum += branch.chance;
    if (number < sum) return branch;
  }
  return branches.at(-1) ?? never();
};
