import { type BenchSetup, never, type Place } from './bench-setup.ts';
import { type BenchRun, type BenchState, takenFrom } from './bench-state.ts';

/** What is done for a run, whatever it costs: layers by id, parts by index. */
export interface RunWork {
  /** Each as often as it is opened, in whichever host. */
  readonly opened: readonly string[];
  readonly shut: readonly string[];
  readonly updates: boolean;
  readonly parts: readonly PartWork[];
}

interface PartWork {
  readonly part: number;
  readonly handled: boolean;
  /** Steps that were not taken with the same piece before. */
  readonly authorised: boolean;
  readonly calibrated: boolean;
  readonly identityMoved: boolean;
}

/**
 * What is done for a run, from the state that the bench is in? Opening the host as far as its parts need it, and other hosts as far as
 * pieces are taken out of them; fitting; steps; shutting the host; an update; start and soak; the checks of the parts looked at.
 * A layer that stands open already is not opened again.
 */
export const runWork = (setup: BenchSetup, state: BenchState, run: BenchRun): RunWork => {
  const own = handledIn(run);
  const opened = state.hosts.flatMap((_, host) =>
    newlyOpened(setup, state, { host, parts: host === run.host ? own : takenFrom(run, host) }),
  );
  return {
    opened,
    shut: [...new Set([...(state.hosts[run.host]?.open ?? []), ...layersOf(setup, own)])],
    updates: run.firmware !== state.hosts[run.host]?.firmware,
    parts: run.choices.flatMap((choice, part) => {
      if (!choice) return [];
      const kept: Partial<Place> = choice.handled ? {} : (state.parts[part]?.places[run.host] ?? {});
      return [
        {
          part,
          handled: choice.handled,
          authorised: choice.authorised && !kept.authorised,
          calibrated: choice.calibrated && !kept.calibrated,
          identityMoved: choice.identityMoved && !kept.identityMoved,
        },
      ];
    }),
  };
};

/** How long does so much work take at the costs of a bench [s]? */
export const workSeconds = ({ problem, parts }: BenchSetup, work: RunWork): number => {
  let seconds = problem.startSeconds + problem.soakSeconds;
  for (const layer of work.opened) seconds += problem.layers[layer]?.openSeconds ?? 0;
  for (const layer of work.shut) seconds += problem.layers[layer]?.closeSeconds ?? 0;
  if (work.updates) seconds += problem.updateSeconds;
  for (const { part, handled, authorised, calibrated, identityMoved } of work.parts) {
    const { part: costs } = parts[part] ?? never();
    seconds += costs.checkSeconds;
    if (handled) seconds += costs.fitSeconds;
    if (authorised) seconds += costs.authoriseSeconds ?? 0;
    if (calibrated) seconds += costs.calibrateSeconds ?? 0;
    if (identityMoved) seconds += costs.identitySeconds ?? 0;
  }
  return seconds;
};

/** How long does a run take [s], from the state that the bench is in? */
export const runSeconds = (setup: BenchSetup, state: BenchState, run: BenchRun): number =>
  workSeconds(setup, runWork(setup, state, run));

/** Layers that reaching these parts opens in a host beyond those that stand open. */
const newlyOpened = (
  setup: BenchSetup,
  state: BenchState,
  { host, parts }: { host: number; parts: readonly number[] },
): readonly string[] => {
  if (parts.length === 0) return [];
  const open = state.hosts[host]?.open ?? [];
  return [...layersOf(setup, parts)].filter((layer) => !open.includes(layer));
};

const handledIn = (run: BenchRun): readonly number[] =>
  run.choices.flatMap((choice, part) => (choice?.handled ? [part] : []));

const layersOf = (setup: BenchSetup, parts: readonly number[]): ReadonlySet<string> =>
  new Set(parts.flatMap((part) => (setup.parts[part] ?? never()).part.layers));
