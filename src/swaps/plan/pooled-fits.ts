import { dorfmanGroup } from '../pooling/dorfman.ts';
import { halvingRuns } from '../pooling/halving.ts';
import { hwangWorstRuns } from '../pooling/hwang.ts';
import { type BenchSetup, never, settingKey, settingOf } from './bench-setup.ts';
import type { BenchRun, BenchState } from './bench-state.ts';

/** Above this chance of failing parts are better fitted one by one: pooling then gains under 3 %, and what one hides eats that. */
const POOLED_BELOW = 0.2;

/** Several foreign pieces in one run, and what group testing says of it. */
export interface PooledFits {
  readonly parts: readonly string[];
  /** Mean chance that one of them fails, by the odds. */
  readonly chance: number;
  /** Expected runs until each is known, by halving; one by one it is one run for each. */
  readonly expectedRuns: number;
  /** Runs at worst when at most one fails. */
  readonly worstRunsWithOne: number;
  /** Best size of a group in two stages at that chance; 1 is one by one. */
  readonly bestGroup: number;
  /** Is the chance low enough for pooling to pay by the number of runs alone? If not, a shared opening or soak pays for it. */
  readonly paysByRuns: boolean;
}

/** Why are several foreign pieces fitted in one run? Undefined where at most one is. */
export const pooledFits = (setup: BenchSetup, state: BenchState, run: BenchRun): PooledFits | undefined => {
  const foreign = run.choices.flatMap((choice, part) =>
    choice?.handled && choice.piece !== run.host ? [{ part, choice }] : [],
  );
  if (foreign.length < 2) return undefined;
  const chances = foreign.map(({ part, choice }) => {
    const placed = { part, host: run.host, firmware: run.firmware, choice };
    const { belief } = state.parts[part] ?? never();
    const branches = (setup.parts[part] ?? never()).beliefs.foresee(
      belief,
      () => settingOf(setup, placed),
      settingKey(placed),
    );
    return branches.reduce((sum, { outcome, chance }) => (outcome === 'passed' ? sum : sum + chance), 0);
  });
  const chance = chances.reduce((sum, one) => sum + one, 0) / chances.length;
  return {
    parts: foreign.map(({ part }) => (setup.parts[part] ?? never()).part.id),
    chance,
    expectedRuns: halvingRuns(foreign.length, chance),
    worstRunsWithOne: hwangWorstRuns(foreign.length, 1),
    bestGroup: chance > 0 ? dorfmanGroup(chance).size : foreign.length,
    paysByRuns: chance < POOLED_BELOW,
  };
};
