import type { Arm } from '../model/swap-run.ts';
import { type BenchSetup, type Choice, never } from './bench-setup.ts';
import { type BenchRun, type BenchState, takenFrom } from './bench-state.ts';
import { runSeconds } from './run-cost.ts';

/** What is done with one part in a run, in the words of the run sheet. */
export interface SheetFit {
  readonly part: string;
  /** Key of the piece. */
  readonly piece: string;
  readonly isOwn: boolean;
  /** Is it taken out or fitted for this run? If not it is looked at as it is. */
  readonly handled: boolean;
  /** The host that the piece is taken out of for it. */
  readonly from?: string;
  readonly authorised: boolean;
  readonly calibrated: boolean;
  readonly identityMoved: boolean;
  readonly arm: Arm;
}

/** One run of the run sheet. */
export interface SheetRun {
  readonly host: string;
  /** Undefined where the firmware of the host is not recorded. */
  readonly firmware?: string;
  /** Is the host updated to that firmware for it? */
  readonly update: boolean;
  /** Layers to be opened, by host, beyond those that stand open. */
  readonly open: Readonly<Record<string, readonly string[]>>;
  /** Parts looked at; the others stay as they are. */
  readonly fits: readonly SheetFit[];
  readonly seconds: number;
}

/** How does a run read on the run sheet? */
export const sheetRun = (setup: BenchSetup, state: BenchState, run: BenchRun): SheetRun => {
  const { hosts, firmware } = setup.problem;
  const version = firmware[run.firmware];
  const handled = run.choices.flatMap((choice, part) => (choice?.handled ? [part] : []));
  const open = hosts.map((host, index) => {
    const parts = index === run.host ? handled : takenFrom(run, index);
    const layers = new Set(parts.flatMap((part) => (setup.parts[part] ?? never()).part.layers));
    return [host.id, [...layers].filter((layer) => !state.hosts[index]?.open.includes(layer))] as const;
  });
  return {
    host: hosts[run.host]?.id ?? never(),
    ...(version === undefined ? {} : { firmware: version }),
    update: run.firmware !== state.hosts[run.host]?.firmware,
    open: Object.fromEntries(open.filter(([, layers]) => layers.length > 0)),
    fits: run.choices.flatMap((choice, part) => (choice ? [sheetFit(setup, state, { run, part, choice })] : [])),
    seconds: runSeconds(setup, state, run),
  };
};

const sheetFit = (
  setup: BenchSetup,
  state: BenchState,
  { run, part, choice }: { run: BenchRun; part: number; choice: Choice },
): SheetFit => {
  const { part: of, pieces } = setup.parts[part] ?? never();
  const { handled, authorised, calibrated, identityMoved } = choice;
  return {
    part: of.id,
    piece: pieces[choice.piece]?.key ?? never(),
    isOwn: choice.piece === run.host,
    handled,
    ...(choice.from === undefined ? {} : { from: setup.problem.hosts[choice.from]?.id ?? never() }),
    authorised,
    calibrated,
    identityMoved,
    arm: armOf(setup, state, { run, part, choice }),
  };
};

/** Which stage of the protocol is it? What is new in the run names it. */
const armOf = (
  setup: BenchSetup,
  state: BenchState,
  { run, part, choice }: { run: BenchRun; part: number; choice: Choice },
): Arm => {
  const now = state.parts[part] ?? never();
  const kept = choice.handled ? undefined : now.places[run.host];
  if (choice.identityMoved && !kept?.identityMoved) return 'identity-moved';
  if (choice.calibrated && !kept?.calibrated) return 'calibrated';
  if (choice.authorised && !kept?.authorised) return 'authorised';
  const here = now.belief.runs.filter(({ host }) => host === setup.problem.hosts[run.host]?.id);
  const foreignBefore = here.filter(({ isOwn }) => !isOwn);
  if (choice.piece === run.host) {
    if (foreignBefore.length > 0) return choice.handled ? 'swap-back' : 'replicate';
    return choice.handled ? 'refit-control' : 'baseline';
  }
  const version = setup.problem.firmware[run.firmware];
  if (foreignBefore.length > 0 && foreignBefore.every(({ firmware }) => firmware !== version)) return 'firmware';
  const key = setup.parts[part]?.pieces[choice.piece]?.key;
  return foreignBefore.some(({ piece }) => piece.key === key) ? 'replicate' : 'cross';
};
