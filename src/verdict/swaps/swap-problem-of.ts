import { durationMilliseconds } from '#quantity/duration';
import { firmwareAt } from '#record/device/firmware-order';
import { checksOf } from '#record/device/function-checks';
import type { Assessment } from '#record/schema/assessment';
import { standingSwaps } from '#record/standing-swaps';
import { firmwareInOrder } from '#swaps/lineage/firmware-in-order';
import { listedPiece, ownPieceKey, ownRevision } from '#swaps/model/piece-of';
import type { SwapRun } from '#swaps/model/swap-run';
import { defaultOdds, ODDS_STANDING } from '#swaps/plan/default-odds';
import {
  donorPiece,
  type LayerCost,
  type PlannedDonor,
  type PlannedHost,
  type PlannedPart,
  type SwapProblem,
} from '#swaps/plan/swap-problem';
import type { Groundwork } from '../index-bases.ts';
import { matingsUsed } from './matings-used.ts';
import { type Opening, openingOf } from './opening-costs.ts';

/** What takes how long where the record does not say [s]; chances likewise. */
const BENCH_DEFAULTS = {
  startSeconds: 90,
  soakSeconds: 120,
  updateSeconds: 900,
  openSeconds: 300,
  fitSeconds: 60,
  checkSecondsEach: 20,
  authoriseSeconds: 300,
  calibrateSeconds: 180,
  identitySeconds: 900,
  hides: 0.1,
} as const;

/** The problem that a plan of swaps solves, and in words what in it is taken and not recorded. */
export interface StatedProblem {
  readonly problem: SwapProblem;
  readonly assumptions: readonly string[];
}

/** What is asked: the groundwork of the record, its runs by part, and whatever is to hold instead of what the record says. */
export interface ProblemRequest {
  readonly groundwork: Groundwork;
  readonly runs: ReadonlyMap<string, readonly SwapRun[]>;
  /** Bench minutes available, instead of those of the record. */
  readonly minutes?: number | undefined;
  /** Only these parts of the bench, instead of all. */
  readonly parts?: readonly string[] | undefined;
}

/**
 * What is to be found out by swaps, with what, at what cost? Parts, hosts, donors and times as `swapBench` of the record has them;
 * opening by the best routes found; matings less those of the teardown sessions; what neither says is a default of this tool and
 * named as such. Parts of the bench that have no place in the device are left out.
 */
export const swapProblemOf = ({ groundwork, runs, minutes, parts }: ProblemRequest): StatedProblem => {
  const { assessment } = groundwork.source;
  const bench = assessment.swapBench ?? {};
  const notes = new Notes();
  const hosts = hostsOf(assessment, runs, notes);
  const known = Object.keys(bench.parts ?? {}).filter((id) => groundwork.source.device.parts.has(id));
  const ids = known.filter((id) => parts?.includes(id) ?? true);
  const laid = ids.map((id) => laidOpen(groundwork, id, notes));
  const available = minutes ?? bench.minutes;
  const problem: SwapProblem = {
    parts: laid.map((part) => plannedPart(part, { groundwork, hosts, notes })),
    layers: layersOf(laid, seconds(bench.close)),
    hosts,
    donors: donorsOf(assessment, hosts).filter(({ part }) => ids.includes(part)),
    firmware: firmwareInOrder(
      [...(bench.firmware ?? []), ...hosts.flatMap(({ firmware }) => firmware ?? [])],
      bench.firmware,
    ),
    startSeconds: notes.orDefault(seconds(bench.start), 'startSeconds', 'starting with one restart'),
    soakSeconds: notes.orDefault(seconds(bench.soak), 'soakSeconds', 'the wait before the list'),
    updateSeconds: notes.orDefault(seconds(bench.update), 'updateSeconds', 'an update of one specimen'),
    refitControl: bench.refitControl ?? false,
    hides: notes.orDefault(bench.hides, 'hides', 'the chance that a failing part stops the whole device'),
    ...(available === undefined ? {} : { minutes: available }),
  };
  return { problem, assumptions: notes.lines() };
};

type BenchPart = NonNullable<NonNullable<Assessment['swapBench']>['parts']>[string];

/** What is taken and not recorded, each said once. */
class Notes {
  private readonly said = new Set<string>();

  say(line: string): void {
    this.said.add(line);
  }

  orDefault(value: number | undefined, field: keyof typeof BENCH_DEFAULTS, what: string): number {
    if (value !== undefined) return value;
    const amount = BENCH_DEFAULTS[field];
    this.say(`${what}: ${field === 'hides' ? amount : `${amount} s`}`);
    return amount;
  }

  lines(): readonly string[] {
    return [...this.said].map((line) => `${line} (${ODDS_STANDING})`);
  }
}

const seconds = (duration: number | string | undefined): number | undefined => {
  const milliseconds = durationMilliseconds(duration);
  return milliseconds === undefined ? undefined : milliseconds / 1000;
};

/** A part with the layers above it and what taking it out takes. */
interface LaidOpen {
  readonly id: string;
  readonly bench: BenchPart;
  readonly layers: Opening['layers'];
  readonly releaseSeconds: number | undefined;
}

/** The record's own word on layer and opening goes before the routes. */
const laidOpen = (groundwork: Groundwork, id: string, notes: Notes): LaidOpen => {
  const bench = groundwork.source.assessment.swapBench?.parts?.[id] ?? {};
  const route = openingOf(groundwork, id);
  const stated = seconds(bench.open);
  for (const action of route?.untimed ?? []) notes.say(`${action}: 20 s`);
  const whole = route?.layers.reduce((sum, { openSeconds }) => sum + openSeconds, 0);
  const own = (openSeconds: number): Opening['layers'] => [{ id: bench.layer ?? `to/${id}`, openSeconds }];
  const releaseSeconds = route?.releaseSeconds;
  if (stated !== undefined) return { id, bench, layers: own(stated), releaseSeconds };
  if (route && bench.layer === undefined) return { id, bench, layers: route.layers, releaseSeconds };
  return {
    id,
    bench,
    layers: own(whole ?? notes.orDefault(undefined, 'openSeconds', `opening up to ${id}`)),
    releaseSeconds,
  };
};

/**
 * What does each layer cost? Shared by several parts, the longest time that one of them needs. Closing takes as long as opening,
 * unless the record gives a time for closing a specimen: then the outermost layers take that, and those inside nothing more.
 */
const layersOf = (laid: readonly LaidOpen[], close: number | undefined): Readonly<Record<string, LayerCost>> => {
  const longest = new Map<string, number>();
  const outermost = new Set(laid.flatMap(({ layers }) => layers[0]?.id ?? []));
  for (const { id, openSeconds } of laid.flatMap(({ layers }) => layers))
    longest.set(id, Math.max(longest.get(id) ?? 0, openSeconds));
  return Object.fromEntries(
    [...longest].map(([id, openSeconds]) => {
      const stated = close === undefined ? undefined : outermost.has(id) ? close : 0;
      return [id, { openSeconds, closeSeconds: stated ?? openSeconds }];
    }),
  );
};

interface PartRequest {
  readonly groundwork: Groundwork;
  readonly hosts: readonly PlannedHost[];
  readonly notes: Notes;
}

interface OfferedStep {
  readonly takes: number | string | undefined;
  readonly field: keyof typeof BENCH_DEFAULTS;
  readonly what: string;
}

const plannedPart = ({ id, bench, layers, releaseSeconds }: LaidOpen, request: PartRequest): PlannedPart => {
  const { groundwork, notes } = request;
  const { assessment } = groundwork.source;
  const name = groundwork.source.device.parts.get(id)?.name ?? id;
  // Out and in again.
  const byRoute = releaseSeconds === undefined ? undefined : 2 * releaseSeconds;
  const checks = checksOf(assessment, id).length;
  const step = (offered: boolean | undefined, { takes, field, what }: OfferedStep): number | undefined =>
    offered === true ? notes.orDefault(seconds(takes), field, what) : undefined;
  if (bench.odds === undefined) notes.say('odds of the explanations, by role');
  const matings = matingsLeft(id, bench, request);
  return {
    id,
    odds: defaultOdds(assessment.parts?.[id]?.role, bench.odds as PlannedPart['odds']),
    layers: layers.map((layer) => layer.id),
    fitSeconds: seconds(bench.fit) ?? byRoute ?? notes.orDefault(undefined, 'fitSeconds', `a fit of ${name}`),
    checkSeconds:
      seconds(bench.check) ?? checks * notes.orDefault(undefined, 'checkSecondsEach', 'each function checked'),
    ...optional(
      'authoriseSeconds',
      step(bench.authorisation, { takes: bench.authorise, field: 'authoriseSeconds', what: 'an authorised step' }),
    ),
    ...optional(
      'calibrateSeconds',
      step(bench.calibration, { takes: bench.calibrate, field: 'calibrateSeconds', what: 'a calibration' }),
    ),
    ...optional(
      'identitySeconds',
      step(bench.identity !== undefined, {
        takes: bench.moveIdentity,
        field: 'identitySeconds',
        what: 'moving the own identity',
      }),
    ),
    ...(matings ? { matings } : {}),
  };
};

/** A property that is only there where it has a value. */
const optional = <K extends string, V>(key: K, value: V | undefined): { readonly [P in K]?: V } =>
  value === undefined ? {} : ({ [key]: value } as { readonly [P in K]?: V });

/** The scarcest connector of a part decides; donors are taken as never mated before. */
const matingsLeft = (
  part: string,
  { connectors = [] }: BenchPart,
  { groundwork, hosts }: PartRequest,
): Readonly<Record<string, number>> | undefined => {
  if (connectors.length === 0) return undefined;
  const { assessment, device } = groundwork.source;
  const used = matingsUsed(assessment, device);
  const left = (host: string): number =>
    Math.max(0, Math.min(...connectors.map(({ fastener, rated }) => rated - used(host, fastener))));
  const donors = donorsOf(assessment, hosts).filter((donor) => donor.part === part);
  return Object.fromEntries([
    ...hosts.flatMap(({ id }) => [
      [id, left(id)],
      [ownPieceKey(id), left(id)],
    ]),
    ...donors.map((donor) => [donorPiece(donor).key, Math.min(...connectors.map(({ rated }) => rated))]),
  ]);
};

/** The hosts in the order in which they may be used up; without a list, those whose use is swaps, else those with runs. */
const hostsOf = (assessment: Assessment, runs: ProblemRequest['runs'], notes: Notes): readonly PlannedHost[] => {
  const all = assessment.specimens ?? {};
  const meant = Object.keys(all).filter((id) => all[id]?.uses?.includes('swap'));
  const seen = [...new Set([...runs.values()].flat().map(({ host }) => host))].sort();
  const ids = assessment.swapBench?.hosts ?? (meant.length > 0 ? meant : seen);
  return ids.map((id) => {
    const specimen = all[id];
    const revisions = revisionsOf(id, assessment);
    const firmware = firmwareBefore(id, assessment) ?? oldestAtHand(assessment, id, notes);
    return {
      id,
      ...(Object.keys(revisions).length > 0 ? { revisions } : {}),
      ...optional('firmware', firmware),
      ...optional('homeLock', HOME_LOCKS[specimen?.accountLock ?? 'unknown']),
    };
  });
};

/** A unit signed in to the laboratory's own account is neither known as free nor as locked to what it meets. */
const HOME_LOCKS = { none: 'none', 'own-account': undefined, locked: 'locked', unknown: undefined } as const;

/** The part revisions of a specimen, where they are marked or that of the unit is known. */
const revisionsOf = (host: string, assessment: Assessment): Readonly<Record<string, string>> => {
  const context = { assessment, standing: standingSwaps(assessment.swaps) };
  return Object.fromEntries(
    Object.keys(assessment.swapBench?.parts ?? {}).flatMap((part) => {
      const revision = ownRevision(host, part, context);
      return revision === undefined ? [] : [[part, revision] as const];
    }),
  );
};

/** A plan has to begin somewhere: firmware that nobody read is taken to be the oldest at hand, and said so. */
const oldestAtHand = ({ swapBench, specimens }: Assessment, host: string, notes: Notes): string => {
  const oldest = swapBench?.firmware?.[0] ?? 'as delivered';
  notes.say(`firmware of ${specimens?.[host]?.name ?? host}: ${oldest}`);
  return oldest;
};

/** The firmware of a host before its first run: as that run says, else what its history ends with before it. */
const firmwareBefore = (host: string, assessment: Assessment): string | undefined => {
  const first = standingSwaps(assessment.swaps).find(([, { specimen }]) => specimen === host)?.[1];
  return first?.firmware ?? firmwareAt(assessment, host, first?.on ?? '9999-12-31T00:00:00Z');
};

/** Pieces that are no own part of a host. */
const donorsOf = (assessment: Assessment, hosts: readonly PlannedHost[]): readonly PlannedDonor[] => {
  const context = { assessment, standing: standingSwaps(assessment.swaps) };
  return Object.entries(assessment.swapBench?.donors ?? {}).flatMap(([id, listed]) => {
    if (hosts.some((host) => host.id === listed.specimen)) return [];
    const { key: _, ...piece } = listedPiece(id, listed, context);
    return [{ id, part: listed.part, ...piece }];
  });
};
