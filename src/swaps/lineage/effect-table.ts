import type { EffectCode, SwapRun } from '../model/swap-run.ts';
import { firmwareInOrder } from './firmware-in-order.ts';

/** The effect scale from no trace to the own part being no longer accepted. */
export const EFFECT_CODES: readonly EffectCode[] = ['E0', 'E1', 'E2', 'E3', 'E4', 'E5', 'E6', 'E7'];

/** How many runs showed each effect? Effects that no run showed are left out. */
export type EffectCounts = Readonly<Partial<Record<EffectCode, number>>>;

/** A run whose effect is not laid to the software, and what it is laid to. */
export interface SetAsideRun {
  readonly run: string;
  readonly effect?: EffectCode;
  readonly why: string;
}

/**
 * What did one part show on one firmware version? Counted are foreign fits as fitted, before any authorisation, calibration or
 * move of the identity, and own parts no longer accepted (E7). A run of several parts whose effect was not told apart counts only
 * where nothing failed; what another part hid counts nowhere.
 */
export interface EffectCell {
  readonly part: string;
  /** Undefined: the firmware was not recorded. */
  readonly firmware?: string;
  readonly counts: EffectCounts;
  /** Ids of the counted runs by the effect they showed. */
  readonly showing: Readonly<Partial<Record<EffectCode, readonly string[]>>>;
  /** The worst effect seen in any run. */
  readonly worst?: EffectCode;
  /** The worst effect that at least two runs showed. */
  readonly reproduced?: EffectCode;
  /** Ids of the counted runs, in the order in which they were made. */
  readonly runs: readonly string[];
  readonly hosts: readonly string[];
  /** Own parts: baseline, refit control, put back. */
  readonly own: EffectCounts;
  /** Foreign fits after an authorisation, a calibration or a move of the identity. */
  readonly afterStep: EffectCounts;
  readonly setAside: readonly SetAsideRun[];
  /** Foreign runs that say nothing of this part alone: hidden by another part, not told apart, or without an effect on record. */
  readonly uncounted: readonly string[];
}

/** The part by firmware table: a row a part, a cell a version, versions from the oldest on, those not recorded at the end. */
export interface EffectTable {
  readonly firmware: readonly (string | undefined)[];
  readonly rows: readonly { readonly part: string; readonly cells: readonly EffectCell[] }[];
}

/** What is tabled: the runs of each part; the order of firmware versions; runs laid to a piece, a hand or a test, with why. */
export interface EffectTableRequest {
  readonly runs: ReadonlyMap<string, readonly SwapRun[]>;
  readonly listedFirmware?: readonly string[];
  readonly setAside?: ReadonlyMap<string, string>;
}

/** Which effects did each part show on each firmware version, in how many runs and hosts? Independent of the order of runs. */
export const effectTable = ({ runs, listedFirmware, setAside = new Map() }: EffectTableRequest): EffectTable => {
  const all = [...runs.values()].flat();
  const known = firmwareInOrder(
    all.flatMap(({ firmware }) => (firmware === undefined ? [] : [firmware])),
    listedFirmware,
  );
  const firmware = all.some((run) => run.firmware === undefined) ? [...known, undefined] : known;
  const rows = [...runs].map(([part, ofPart]) => {
    const sorted = [...ofPart].sort(byOrder);
    const cells = firmware.map((version) =>
      effectCell({ part, firmware: version, runs: sorted.filter((run) => run.firmware === version), setAside }),
    );
    return { part, cells };
  });
  return { firmware, rows };
};

const byOrder = (a: SwapRun, b: SwapRun): number => a.order - b.order || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);

interface CellRequest {
  readonly part: string;
  readonly firmware: string | undefined;
  readonly runs: readonly SwapRun[];
  readonly setAside: ReadonlyMap<string, string>;
}

type Place = 'counted' | 'own' | 'afterStep' | 'setAside' | 'uncounted';

const effectCell = ({ part, firmware, runs, setAside }: CellRequest): EffectCell => {
  const placed = (place: Place): readonly SwapRun[] => runs.filter((run) => placeOf(run, setAside) === place);
  const counted = placed('counted');
  const counts = countsOf(counted);
  const shown = EFFECT_CODES.filter((code) => counts[code] !== undefined);
  const worst = shown.at(-1);
  const reproduced = shown.filter((code) => (counts[code] ?? 0) >= 2).at(-1);
  return {
    part,
    ...(firmware === undefined ? {} : { firmware }),
    counts,
    showing: Object.fromEntries(
      shown.map((code) => [code, counted.filter(({ effect }) => effect === code).map(({ id }) => id)]),
    ),
    ...(worst === undefined ? {} : { worst }),
    ...(reproduced === undefined ? {} : { reproduced }),
    runs: counted.map(({ id }) => id),
    hosts: [...new Set(counted.map(({ host }) => host))].sort(),
    own: countsOf(placed('own')),
    afterStep: countsOf(placed('afterStep')),
    setAside: placed('setAside').map(({ id: run, effect }) => ({
      run,
      ...(effect === undefined ? {} : { effect }),
      why: setAside.get(run) ?? '',
    })),
    uncounted: placed('uncounted').map(({ id }) => id),
  };
};

const placeOf = (run: SwapRun, setAside: ReadonlyMap<string, string>): Place => {
  if (setAside.has(run.id)) return 'setAside';
  if (run.isOwn) return run.effect === 'E7' ? 'counted' : 'own';
  const isTellable = run.attributed || run.outcome === 'passed';
  if (run.outcome === 'unseen' || run.effect === undefined || !isTellable) return 'uncounted';
  return run.authorised || run.calibrated || run.identityMoved ? 'afterStep' : 'counted';
};

const countsOf = (runs: readonly SwapRun[]): EffectCounts =>
  Object.fromEntries(
    EFFECT_CODES.flatMap((code) => {
      const count = runs.filter(({ effect }) => effect === code).length;
      return count === 0 ? [] : [[code, count] as const];
    }),
  );
