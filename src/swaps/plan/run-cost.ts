import { type BenchSetup, type Choice, never, type Place } from './bench-setup.ts';
import { type BenchRun, type BenchState, takenFrom } from './bench-state.ts';

/**
 * How long does a run take [s], from the state that the bench is in? Opening the host as far as its parts need it, and other hosts
 * as far as pieces are taken out of them; fitting; steps; shutting the host; an update; start and soak; the checks of the parts
 * looked at. A layer that stands open already costs nothing to reach.
 */
export const runSeconds = (setup: BenchSetup, state: BenchState, run: BenchRun): number => {
  const { problem } = setup;
  const own = handledIn(run);
  const openNow = new Set([...(state.hosts[run.host]?.open ?? []), ...layersOf(setup, own)]);
  let seconds =
    problem.startSeconds + problem.soakSeconds + openingSeconds(setup, state, { host: run.host, parts: own });
  for (const layer of openNow) seconds += problem.layers[layer]?.closeSeconds ?? 0;
  if (run.firmware !== state.hosts[run.host]?.firmware) seconds += problem.updateSeconds;
  for (const [host] of state.hosts.entries())
    if (host !== run.host) seconds += openingSeconds(setup, state, { host, parts: takenFrom(run, host) });
  for (const [part, choice] of run.choices.entries())
    if (choice) seconds += choiceSeconds(setup, part, { choice, before: state.parts[part]?.places[run.host] });
  return seconds;
};

/** What opening a host as far as these parts takes, beyond the layers that stand open [s]. */
const openingSeconds = (
  setup: BenchSetup,
  state: BenchState,
  { host, parts }: { host: number; parts: readonly number[] },
): number => {
  const open = state.hosts[host]?.open ?? [];
  let seconds = 0;
  for (const layer of layersOf(setup, parts))
    if (!open.includes(layer)) seconds += setup.problem.layers[layer]?.openSeconds ?? 0;
  return seconds;
};

/** What fitting, the steps and the checks of one part take [s]. */
const choiceSeconds = (
  setup: BenchSetup,
  part: number,
  { choice, before }: { choice: Choice; before: Place | undefined },
): number => {
  const { part: costs } = setup.parts[part] ?? never();
  const kept = choice.handled ? undefined : before;
  let seconds = costs.checkSeconds + (choice.handled ? costs.fitSeconds : 0);
  if (choice.authorised && !kept?.authorised) seconds += costs.authoriseSeconds ?? 0;
  if (choice.calibrated && !kept?.calibrated) seconds += costs.calibrateSeconds ?? 0;
  if (choice.identityMoved && !kept?.identityMoved) seconds += costs.identitySeconds ?? 0;
  return seconds;
};

const handledIn = (run: BenchRun): readonly number[] =>
  run.choices.flatMap((choice, part) => (choice?.handled ? [part] : []));

const layersOf = (setup: BenchSetup, parts: readonly number[]): ReadonlySet<string> =>
  new Set(parts.flatMap((part) => (setup.parts[part] ?? never()).part.layers));
