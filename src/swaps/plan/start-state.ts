import { attributePools } from '../diagnosis/attribute-pools.ts';
import { weigh } from '../diagnosis/weighing.ts';
import type { SwapRun } from '../model/swap-run.ts';
import type { BenchSetup, PartSetup, Place } from './bench-setup.ts';
import { type BenchState, EMPTY, type HostState, type PartState } from './bench-state.ts';

/**
 * How does the bench stand after these runs? Runs of all parts, in any order. Pieces sit where they were fitted last, unless they were
 * fitted elsewhere since; hosts are shut; firmware is that of the latest run that records one.
 */
export const stateAfter = (setup: BenchSetup, runs: readonly SwapRun[]): BenchState => {
  const ordered = toldApart(setup, runs);
  return {
    hosts: setup.problem.hosts.map((_, host) => hostAfter(setup, ordered, host)),
    parts: setup.parts.map((part) => partAfterRuns(setup, part, ordered)),
    hidden: hiddenPools(setup, ordered),
  };
};

const hostAfter = (setup: BenchSetup, runs: readonly SwapRun[], index: number): HostState => {
  const host = setup.problem.hosts[index];
  const here = runs.filter((run) => run.host === host?.id);
  const version = here.findLast(({ firmware }) => firmware !== undefined)?.firmware ?? host?.firmware;
  return {
    firmware: version === undefined ? -1 : setup.problem.firmware.indexOf(version),
    open: [],
    seen: here.length > 0,
  };
};

const partAfterRuns = (setup: BenchSetup, part: PartSetup, runs: readonly SwapRun[]): PartState => {
  const own = runs.filter((run) => run.part === part.part.id);
  const hosts = setup.problem.hosts;
  const worn = Array.from({ length: hosts.length + part.pieces.length }, () => 0);
  let places: readonly Place[] = hosts.map((_, piece) => ({ ...EMPTY, piece }));
  for (const run of own) {
    const host = hosts.findIndex(({ id }) => id === run.host);
    const piece = part.pieces.findIndex(({ key }) => key === run.piece.key);
    if (host < 0) continue;
    const place = {
      piece,
      authorised: run.authorised,
      calibrated: run.calibrated,
      identityMoved: run.identityMoved,
      ...(run.isOwn || run.outcome === 'unseen' ? {} : { hides: run.effect === 'E6' }),
    };
    places = places.map((old, at) => (at === host ? place : old.piece === piece ? EMPTY : old));
    if (!run.handled) continue;
    worn[host] = (worn[host] ?? 0) + 1;
    if (piece >= 0) worn[hosts.length + piece] = (worn[hosts.length + piece] ?? 0) + 1;
  }
  const stops = own.some(({ isOwn, effect }) => !isOwn && effect === 'E6');
  return { belief: part.beliefs.after(own), places, worn, stops, made: own.length };
};

/** The runs in their order, those of several parts told apart as far as the diagnosis can; what cannot be is unseen. */
const toldApart = (setup: BenchSetup, runs: readonly SwapRun[]): readonly SwapRun[] => {
  const ids = [...new Set(runs.map(({ part }) => part))];
  const weighings = new Map(
    ids.map((id) => [
      id,
      weigh(
        runs.filter(({ part }) => part === id),
        setup.problem.firmware,
      ),
    ]),
  );
  const findings = attributePools(weighings);
  const told = [...weighings].flatMap(([id, { runs: ofPart }]) =>
    ofPart.map((run, place) => ({ ...run, outcome: findings.get(id)?.findings[place]?.outcome ?? run.outcome })),
  );
  return told.sort((a, b) => a.order - b.order);
};

/** Parts that were fitted foreign together in a run that failed without telling which did it, while no trouble was found among them. */
const hiddenPools = (setup: BenchSetup, runs: readonly SwapRun[]): readonly (readonly number[])[] => {
  const pools = runs
    .filter((run) => !run.attributed && run.outcome === 'unseen' && !run.isOwn)
    .map((run) => [run.part, ...run.together].flatMap((id) => indexOf(setup, id)).sort((a, b) => a - b));
  const open = pools.filter((pool) => pool.length > 1 && !pool.some((part) => wasTroubled(setup, runs, part)));
  return [...new Map(open.map((pool) => [pool.join(), pool])).values()];
};

const indexOf = (setup: BenchSetup, id: string): readonly number[] => {
  const index = setup.parts.findIndex(({ part }) => part.id === id);
  return index < 0 ? [] : [index];
};

const wasTroubled = (setup: BenchSetup, runs: readonly SwapRun[], part: number): boolean => {
  const id = setup.parts[part]?.part.id;
  return runs.some((run) => run.part === id && !run.isOwn && (run.outcome === 'failed' || run.outcome === 'reduced'));
};
