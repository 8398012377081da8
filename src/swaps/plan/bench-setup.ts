import { UnfastenError } from '#quantity/unfasten-error';
import { EXPLANATIONS } from '../model/explanation.ts';
import { ownPieceKey } from '../model/piece-of.ts';
import type { Piece, RunSetting } from '../model/swap-run.ts';
import { BeliefTable } from './belief.ts';
import { BeliefGraph } from './belief-graph.ts';
import { donorPiece, ownPiece, type PlannedPart, type SwapProblem } from './swap-problem.ts';

/** A part with the pieces that can be fitted at its place and what is foretold of it. */
export interface PartSetup {
  readonly part: PlannedPart;
  /** The own parts in the order of the hosts, then the donors. */
  readonly pieces: readonly Piece[];
  /** Donors of one kind, alike locked or not, by piece key: of each class one is to be tried. */
  readonly donorClasses: readonly (readonly string[])[];
  readonly beliefs: BeliefTable;
}

/** A problem in the form in which it is searched: numbers in place of names, parts in an order that no name decides. */
export interface BenchSetup {
  readonly problem: SwapProblem;
  readonly parts: readonly PartSetup[];
}

/** How is one piece fitted in one host, and what was done to it since? */
export interface Place {
  /** Index of the piece; -1 is an empty place. */
  readonly piece: number;
  readonly authorised: boolean;
  readonly calibrated: boolean;
  readonly identityMoved: boolean;
  /** Does it stop the whole device? Undefined is not seen yet. */
  readonly hides?: boolean;
}

/** What is done with one part in a run. */
export interface Choice extends Omit<Place, 'hides'> {
  readonly handled: boolean;
  /** Index of the host that the piece is taken out of for it. */
  readonly from?: number;
}

/** Beliefs by what they depend on: parts that differ in costs or odds alone share them. */
export interface BeliefTables {
  readonly graphs: Map<string, BeliefGraph>;
  readonly tables: Map<string, BeliefTable>;
}

/** Tables with nothing in them yet. */
export const newTables = (): BeliefTables => ({ graphs: new Map(), tables: new Map() });

/** Brings a problem into the form in which it is searched. Beliefs are looked up in `tables` and kept there. */
export const benchSetup = (problem: SwapProblem, tables: BeliefTables = newTables()): BenchSetup => {
  const donors = byContent(problem.donors, ({ home, ...donor }) => JSON.stringify([donor, home !== undefined]));
  const hostIds = problem.hosts.map(({ id }) => id);
  return {
    problem,
    parts: byContent(problem.parts, (part) => contentOf(part, problem, hostIds)).map((part) => {
      const own = problem.hosts.map((host) => ownPiece(host, part.id));
      const others = donors.filter((donor) => donor.part === part.id).map(donorPiece);
      const pieces = [...own, ...others];
      return { part, pieces, donorClasses: classesOf(others), beliefs: tableOf({ part, pieces }, problem, tables) };
    }),
  };
};

/** What is at hand of several kinds is at hand to be compared; a spare like another is not. */
const classesOf = (donors: readonly Piece[]): readonly (readonly string[])[] => {
  const classes = new Map<string, string[]>();
  for (const { key, kind, homeLock } of donors) {
    const name = `${kind ?? ''} ${homeLock ?? ''}`;
    classes.set(name, [...(classes.get(name) ?? []), key]);
  }
  return [...classes.values()];
};

const tableOf = (
  { part, pieces }: Pick<PartSetup, 'part' | 'pieces'>,
  { firmware, hosts }: SwapProblem,
  { graphs, tables }: BeliefTables,
): BeliefTable => {
  const revisions = hosts.map((host) => [host.id, host.revisions?.[part.id]]);
  const pieceKey = JSON.stringify([firmware, pieces, revisions]);
  const graph = graphs.get(pieceKey) ?? new BeliefGraph(firmware);
  graphs.set(pieceKey, graph);
  const key = JSON.stringify([pieceKey, oddsOf(part)]);
  const table = tables.get(key) ?? new BeliefTable(graph, part.odds, firmware.length);
  tables.set(key, table);
  return table;
};

const oddsOf = ({ odds }: PlannedPart): readonly (number | undefined)[] =>
  EXPLANATIONS.map((explanation) => odds[explanation]);

/** What a part is apart from names: its costs, layers by what they cost, matings by the order of the hosts. */
const contentOf = (part: PlannedPart, { layers }: SwapProblem, hosts: readonly string[]): string => {
  const { id: _, odds: __, layers: above, matings, ...costs } = part;
  const inOrder = Object.entries(costs).sort(([a], [b]) => (a < b ? -1 : 1));
  const left = hosts.flatMap((host) => [matings?.[host], matings?.[ownPieceKey(host)]]);
  return JSON.stringify([inOrder, oddsOf(part), above.map((layer) => layers[layer]), left]);
};

/** Sorted by what they say apart from their ids, so that renaming changes nothing; what is alike keeps its order. */
const byContent = <T extends { readonly id: string }>(
  items: readonly T[],
  contentOfItem: (item: T) => string,
): readonly T[] =>
  items
    .map((item) => ({ key: contentOfItem({ ...item, id: '' }), item }))
    .sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0))
    .map(({ item }) => item);

/** The circumstances of a run for one part: closed up, grounded, charged and soaked, as every planned run is. */
export const settingOf = (setup: BenchSetup, at: Placed): RunSetting => {
  const { pieces, part } = setup.parts[at.part] ?? never();
  const host = setup.problem.hosts[at.host] ?? never();
  const version = setup.problem.firmware[at.firmware];
  const revision = host.revisions?.[part.id];
  return {
    host: host.id,
    ...(revision === undefined ? {} : { hostRevision: revision }),
    part: part.id,
    piece: pieces[at.choice.piece] ?? never(),
    isOwn: at.choice.piece === at.host,
    handled: at.choice.handled,
    ...(version === undefined ? {} : { firmware: version }),
    calibrated: at.choice.calibrated,
    authorised: at.choice.authorised,
    identityMoved: at.choice.identityMoved,
    ready: true,
    settled: true,
  };
};

/** A choice for a part in a host on a firmware version, all by index. */
export interface Placed {
  readonly part: number;
  readonly host: number;
  readonly firmware: number;
  readonly choice: Choice;
}

/** A number for the circumstances, the same for the same circumstances of one part: at most 15 hosts, 31 versions, 127 pieces. */
export const settingKey = ({ host, firmware, choice }: Placed): number => {
  const { handled, authorised, calibrated, identityMoved } = choice;
  const steps = Number(handled) + 2 * Number(authorised) + 4 * Number(calibrated) + 8 * Number(identityMoved);
  return ((host * 32 + firmware + 1) * 128 + choice.piece) * 16 + steps;
};

/** For what an index always has: reached only through an error of the planner. */
export const never = (): never => {
  throw new UnfastenError('bug', 'The planner looked beyond what its problem has.', {
    where: 'swaps/plan',
    value: undefined,
    remedy: 'Please report it with the record at hand.',
  });
};
