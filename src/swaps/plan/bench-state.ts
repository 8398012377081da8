import type { Belief } from './belief-graph.ts';
import { type BenchSetup, type Choice, never, type PartSetup, type Place } from './bench-setup.ts';

/** A host between two runs. */
export interface HostState {
  /** Index of its firmware among the versions at hand; -1 is not recorded. */
  readonly firmware: number;
  /** Layers that stand open. */
  readonly open: readonly string[];
  /** Was it run before it was opened? */
  readonly seen: boolean;
}

/** One part between two runs: what is known of it, what is fitted where, how often its connectors were mated since the start. */
export interface PartState {
  readonly belief: Belief;
  /** By host. */
  readonly places: readonly Place[];
  /** Matings used, by host, then by piece. */
  readonly worn: readonly number[];
  /** Did a foreign piece of it stop the device once? Then any is taken to, until told otherwise. */
  readonly stops: boolean;
  /** Runs made with it. Beliefs that are alike may come from more or fewer. */
  readonly made: number;
}

/** Everything the next run depends on. */
export interface BenchState {
  readonly hosts: readonly HostState[];
  readonly parts: readonly PartState[];
  /** Parts, by index, that were fitted foreign together in a run that stopped without telling which did it. */
  readonly hidden: readonly (readonly number[])[];
}

/** One run of one host, by index: for each part what is done with it; undefined is left as it is and not looked at. */
export interface BenchRun {
  readonly host: number;
  readonly firmware: number;
  readonly choices: readonly (Choice | undefined)[];
}

/** Which state follows from fitting and starting, before anything is seen? The host is shut again. */
export const benchAfter = (setup: BenchSetup, state: BenchState, run: BenchRun): BenchState => ({
  ...state,
  hosts: state.hosts.map((host, index) =>
    index === run.host
      ? { firmware: run.firmware, open: [], seen: true }
      : { ...host, open: opened(setup, host, takenFrom(run, index)) },
  ),
  parts: state.parts.map((part, index) =>
    partAfter(part, run.choices[index], { host: run.host, updated: state.hosts[run.host]?.firmware !== run.firmware }),
  ),
});

/** Which parts, by index, are taken out of this host for a run of another? */
export const takenFrom = (run: BenchRun, host: number): readonly number[] =>
  run.choices.flatMap((choice, part) => (choice?.from === host ? [part] : []));

/** Which layers stand open once these parts are reached? */
const opened = (setup: BenchSetup, host: HostState, parts: readonly number[]): readonly string[] =>
  parts.length === 0
    ? host.open
    : [...new Set([...host.open, ...parts.flatMap((part) => (setup.parts[part] ?? never()).part.layers)])].sort();

const partAfter = (part: PartState, choice: Choice | undefined, on: { host: number; updated: boolean }): PartState => {
  const before = part.places[on.host] ?? never();
  if (!choice) return on.updated ? { ...part, places: part.places.with(on.host, forgotten(before)) } : part;
  const { handled, from, ...place } = choice;
  const unchanged = !handled && !on.updated && before.piece === place.piece && sameSteps(before, place);
  const places = part.places.map((old, index) => {
    if (index === on.host) return unchanged ? before : place;
    return index === from ? EMPTY : old;
  });
  const made = part.made + 1;
  if (!handled) return { ...part, places, made };
  const ownConnector = part.places.length + choice.piece;
  return {
    ...part,
    places,
    made,
    worn: part.worn.map((used, at) => used + Number(at === on.host || at === ownConnector)),
  };
};

/** What another firmware does with a piece has to be seen again. */
const forgotten = ({ hides: _, ...place }: Place): Place => place;

type Steps = Pick<Place, 'authorised' | 'calibrated' | 'identityMoved'>;

/** Were the same steps taken with both? */
export const sameSteps = (a: Steps, b: Steps): boolean =>
  a.authorised === b.authorised && a.calibrated === b.calibrated && a.identityMoved === b.identityMoved;

/** A place that nothing is fitted in. */
export const EMPTY: Place = { piece: -1, authorised: false, calibrated: false, identityMoved: false };

/** How often can the place in this host, and this piece, still be mated? */
export const matingsLeft = (
  setup: PartSetup,
  worn: readonly number[],
  at: { host: string; hostIndex: number; piece: number; hosts: number },
): number => {
  const { matings } = setup.part;
  const key = setup.pieces[at.piece]?.key ?? '';
  const inHost = (matings?.[at.host] ?? Number.POSITIVE_INFINITY) - (worn[at.hostIndex] ?? 0);
  const onPiece = (matings?.[key] ?? Number.POSITIVE_INFINITY) - (worn[at.hosts + at.piece] ?? 0);
  return Math.min(inHost, onPiece);
};

/** A text that two states have alike exactly if the same runs can follow with the same chances and costs. */
export const stateKey = (setup: BenchSetup, state: BenchState): string => {
  const hosts = state.hosts.map(({ firmware, open, seen }) => `${firmware}${seen ? '' : '?'}${open.join(',')}`);
  const parts = state.parts.map(({ belief, places, worn }, index) => {
    const limited = setup.parts[index]?.part.matings === undefined ? '' : worn.join('.');
    return `${belief.id} ${places.map(placeKey).join(' ')} ${limited}`;
  });
  return `${hosts.join(';')}/${parts.join(';')}/${state.hidden.map((pool) => pool.join('+')).join(';')}`;
};

const placeKey = ({ piece, authorised, calibrated, identityMoved, hides }: Place): string =>
  `${piece}${authorised ? 'a' : ''}${calibrated ? 'c' : ''}${identityMoved ? 'i' : ''}${hides === undefined ? '' : hides ? '!' : '-'}`;
