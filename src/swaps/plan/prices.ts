import { type BenchSetup, never } from './bench-setup.ts';
import type { BenchState, PartState } from './bench-state.ts';
import { untriedCount } from './untried.ts';

/** What counts an undecided part? A part with two explanations left counts as so many seconds of bench time, and as many more for each doubling. */
export interface Worth {
  readonly undecidedSeconds: number;
  /** What each host and each class of donors counts that was not tried yet [s]; 0 asks for one direction and one donor only. */
  readonly untriedSeconds: number;
}

/** What does it count to stop in a state [s]? */
export const stopSeconds = (setup: BenchSetup, state: BenchState, worth: Worth): number => {
  let seconds = 0;
  for (const [index, part] of state.parts.entries()) seconds += partStop(setup, part, { index, worth });
  return seconds;
};

/** What does it count to leave one part as it is [s]? 0 when it is decided and all tried that is asked for. */
export const partStop = (
  setup: BenchSetup,
  { belief }: PartState,
  { index, worth }: { index: number; worth: Worth },
): number => {
  const halvings = Math.log2(belief.standing.length);
  const untried = worth.untriedSeconds * untriedCount(setup, index, belief);
  if (halvings > 0 || belief.triedIn.length === 0) return worth.undecidedSeconds * Math.max(1, halvings) + untried;
  return untried;
};

/** What has at least to be paid from a state on [s]: nothing when all is done, else one more run or what stopping counts. */
export const leastSeconds = (setup: BenchSetup, state: BenchState, worth: Worth): number => {
  const { problem } = setup;
  let open = 0;
  let check = Number.POSITIVE_INFINITY;
  for (const [index, part] of state.parts.entries()) {
    const stop = partStop(setup, part, { index, worth });
    if (stop === 0) continue;
    open += stop;
    check = Math.min(check, (setup.parts[index] ?? never()).part.checkSeconds);
  }
  return open === 0 ? 0 : Math.min(open, problem.startSeconds + problem.soakSeconds + check);
};

/**
 * What is telling a part's explanations apart likely to take from a state on [s]? As many fits with opening as it takes halvings to get
 * from those that stand to one, or as there are hosts and donors still to be tried. An estimate, no bound.
 */
export const likelySeconds = (setup: BenchSetup, state: BenchState, worth: Worth): number => {
  const { problem } = setup;
  let seconds = 0;
  for (const [index, part] of state.parts.entries()) {
    const stop = partStop(setup, part, { index, worth });
    if (stop === 0) continue;
    const { part: costs } = setup.parts[index] ?? never();
    const layers = costs.layers.map((layer) => problem.layers[layer] ?? never());
    const opening = layers.reduce((sum, { openSeconds, closeSeconds }) => sum + openSeconds + closeSeconds, 0);
    const fit = problem.startSeconds + problem.soakSeconds + opening + costs.fitSeconds + costs.checkSeconds;
    const halvings = Math.log2(Math.max(1, part.belief.standing.length));
    const untried = worth.untriedSeconds > 0 ? untriedCount(setup, index, part.belief) : 0;
    seconds += Math.min(stop, fit * Math.max(halvings, untried));
  }
  return seconds;
};
