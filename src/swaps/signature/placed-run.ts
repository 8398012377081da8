import type { RunSetting } from '../model/swap-run.ts';

/** A run made or planned: its circumstances and its place in the order of runs. */
export interface OrderedSetting extends RunSetting {
  readonly order: number;
}

/** A run together with what the runs before it left behind. All of it follows from what was fitted, nothing from what was seen. */
export interface PlacedRun {
  readonly run: OrderedSetting;
  /** Had the place in this host been opened before or for this run? */
  readonly opened: boolean;
  /** Had this piece been in a host that is not its home before? */
  readonly crossed: boolean;
  /** Had the host had a foreign piece that nobody authorised, and nothing been authorised for it since? */
  readonly unauthorisedBefore: boolean;
  /** Had a foreign piece been authorised for the host after which the own part was not authorised again? */
  readonly rededicated: boolean;
  /** Had this very piece been authorised for this host at an earlier fit? */
  readonly authorisedBefore: boolean;
}

/** What do the runs before it leave behind for each run? The runs of one part, in any order; they come back in theirs. */
export const placeRuns = (runs: readonly OrderedSetting[]): readonly PlacedRun[] => {
  const hosts = new Map<string, HostMemory>();
  const crossed = new Set<string>();
  return [...runs]
    .sort((a, b) => a.order - b.order)
    .map((run) => {
      const host = hosts.get(run.host) ?? freshHost();
      hosts.set(run.host, host);
      const placed = placeRun(run, host, crossed.has(run.piece.key));
      remember(run, host);
      if (!run.isOwn) crossed.add(run.piece.key);
      return placed;
    });
};

interface HostMemory {
  opened: boolean;
  unauthorised: boolean;
  rededicated: boolean;
  readonly authorised: Set<string>;
}

const freshHost = (): HostMemory => ({
  opened: false,
  unauthorised: false,
  rededicated: false,
  authorised: new Set(),
});

const placeRun = (run: OrderedSetting, host: HostMemory, crossed: boolean): PlacedRun => ({
  run,
  opened: host.opened || run.handled,
  crossed,
  unauthorisedBefore: host.unauthorised,
  rededicated: host.rededicated,
  authorisedBefore: host.authorised.has(run.piece.key),
});

const remember = (run: OrderedSetting, host: HostMemory): void => {
  host.opened ||= run.handled;
  if (run.authorised) {
    host.unauthorised = false;
    host.rededicated = !run.isOwn;
    host.authorised.add(run.piece.key);
  } else if (!run.isOwn && !run.identityMoved) host.unauthorised = true;
};
