import type { SeededNumbers } from '#quantity/seeded-numbers';
import { EXPLANATIONS, type Explanation } from '#swaps/model/explanation';
import type { Piece, RunSetting } from '#swaps/model/swap-run';
import { drawTruth, type HiddenTruth, pick } from '#swaps/simulate/hidden-truth';
import type { PlannedStart } from '#swaps/simulate/simulate-runs';

/** A bench drawn by lot: what is the matter with each part, the versions at hand, and what is fitted where in which order. */
export interface RandomBench {
  readonly truths: ReadonlyMap<string, HiddenTruth>;
  readonly firmware: readonly string[];
  readonly starts: readonly PlannedStart[];
}

/** How wide a bench may be drawn. */
export interface BenchRange {
  readonly parts: number;
  readonly starts: number;
  readonly explanations?: readonly Explanation[];
}

const PARTS = ['battery', 'camera', 'display', 'speaker'];
const HOSTS = ['A', 'B', 'C'];
const VERSIONS = ['1.0', '1.1', '2.0'];

/**
 * Which bench is drawn? Two or three hosts with own parts of mixed or unknown revision and lock, up to two spares a part, one to three
 * firmware versions of which each host only goes up, and starts in which up to all parts are changed for any piece, with any
 * step taken and any circumstance kept, missed or not recorded. Nothing about it is a sensible protocol.
 */
export const drawBench = (random: SeededNumbers, { parts, starts, explanations }: BenchRange): RandomBench => {
  const chance = (likelihood: number): boolean => random() < likelihood;
  const names = PARTS.slice(0, 1 + Math.floor(random() * parts));
  const hosts = HOSTS.slice(0, chance(0.7) ? 2 : 3);
  const firmware = VERSIONS.slice(0, 1 + Math.floor(random() * 3));
  const isTidy = chance(0.5);
  const revisions = new Map(hosts.map((host) => [host, revisionOf(random, isTidy)]));
  const count = 3 + Math.floor(random() * starts);
  const pieces = new Map(names.map((part) => [part, piecesOf(hosts, revisions, { random, isTidy })]));
  const truths = new Map(
    names.map((part) => [part, truthOf(pieces.get(part) ?? [], { random, hosts, firmware, count, explanations })]),
  );
  const levels = new Map<string, number>();
  const opened = new Set<string>();
  const drawn = Array.from({ length: count }, (): PlannedStart => {
    const host = pick(hosts, random) ?? 'A';
    if (chance(0.2)) levels.set(host, Math.min(firmware.length - 1, (levels.get(host) ?? 0) + 1));
    const version = firmware[levels.get(host) ?? 0];
    const changed = names.filter(() => chance(0.7));
    const fits = (changed.length > 0 ? changed : names.slice(0, 1)).map((part): RunSetting => {
      const own = chance(0.4);
      const piece = (own ? undefined : pick(pieces.get(part) ?? [], random)) ?? ownOf(pieces.get(part) ?? [], host);
      const isHandled = !own || opened.has(`${host}/${part}`) || chance(0.6);
      if (isHandled) opened.add(`${host}/${part}`);
      return settingOf({ host, part, piece, isHandled, version, revision: revisions.get(host) }, random, isTidy);
    });
    return { fits, isPooled: fits.length > 1 && chance(0.5) };
  });
  return { truths, firmware, starts: drawn };
};

const revisionOf = (random: SeededNumbers, isTidy: boolean): string | undefined =>
  isTidy ? 'R1' : pick(['R1', 'R1', 'R2', undefined], random);

interface Drawing {
  readonly random: SeededNumbers;
  readonly isTidy: boolean;
}

const piecesOf = (
  hosts: readonly string[],
  revisions: ReadonlyMap<string, string | undefined>,
  { random, isTidy }: Drawing,
): readonly Piece[] => {
  const spares = Math.floor(random() * 3);
  const lock = (): Piece['homeLock'] => (isTidy ? 'none' : pick(['none', 'none', 'locked', 'lost', undefined], random));
  const own = hosts.map((host) =>
    piece(`specimen:${host}`, { home: host, revision: revisions.get(host), lock: lock() }),
  );
  const other = Array.from({ length: spares }, (_, place) =>
    piece(`spare-${place + 1}`, { home: undefined, revision: revisionOf(random, isTidy), lock: lock() }),
  );
  return [...own, ...other];
};

interface PieceFacts {
  readonly home: string | undefined;
  readonly revision: string | undefined;
  readonly lock: Piece['homeLock'];
}

const piece = (key: string, { home, revision, lock }: PieceFacts): Piece => ({
  key,
  ...(home === undefined ? {} : { home }),
  ...(revision === undefined ? {} : { revision }),
  ...(lock === undefined ? {} : { homeLock: lock }),
});

const ownOf = (pieces: readonly Piece[], host: string): Piece =>
  pieces.find(({ home }) => home === host) ?? { key: `specimen:${host}`, home: host };

interface TruthRange {
  readonly random: SeededNumbers;
  readonly hosts: readonly string[];
  readonly firmware: readonly string[];
  readonly count: number;
  readonly explanations: readonly Explanation[] | undefined;
}

const truthOf = (pieces: readonly Piece[], { random, hosts, firmware, count, explanations }: TruthRange): HiddenTruth =>
  drawTruth(
    { explanations: explanations ?? EXPLANATIONS, hosts, pieces: pieces.map(({ key }) => key), firmware, runs: count },
    random,
  );

interface Placed {
  readonly host: string;
  readonly part: string;
  readonly piece: Piece;
  readonly isHandled: boolean;
  readonly version: string | undefined;
  readonly revision: string | undefined;
}

const settingOf = (placed: Placed, random: SeededNumbers, isTidy: boolean): RunSetting => {
  const { host, part, piece: fitted, isHandled, version, revision } = placed;
  const isOwn = fitted.home === host;
  const known = <T>(value: T, others: readonly (T | undefined)[]): T | undefined =>
    isTidy || random() < 0.6 ? value : pick(others, random);
  const firmware = known(version, [undefined]);
  const [ready, settled] = [known(true, [false, undefined]), known(true, [false, undefined])];
  return {
    host,
    part,
    piece: fitted,
    isOwn,
    handled: isHandled || !isOwn,
    calibrated: random() < 0.15,
    authorised: random() < 0.15,
    identityMoved: !isOwn && random() < 0.1,
    ...(revision === undefined ? {} : { hostRevision: revision }),
    ...(firmware === undefined ? {} : { firmware }),
    ...(ready === undefined ? {} : { ready }),
    ...(settled === undefined ? {} : { settled }),
  };
};
