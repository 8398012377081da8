import type { Explained } from '#quantity/explained';
import { type EffectCell, effectTable } from '../lineage/effect-table.ts';
import type { EffectCode, SwapRun } from '../model/swap-run.ts';
import { type CountedRuns, controlAgainstForeign, shareOfUnits } from './figures.ts';
import type { SetAside } from './set-aside.ts';
import { isPlainForeign, isSeenAlone } from './told-apart.ts';

/** In which directions were foreign pieces tried? `exchange`: between two hosts both ways; `spares`: pieces of no host only. */
export type Directions = 'both' | 'one' | 'spares';

/** At which level was an effect tested: in how many specimens, which ways round, how often in each? */
export interface TestedLevel {
  readonly hosts: readonly string[];
  readonly directions: Directions;
  /** Least number of foreign fits with this effect in any host tested; 0 where a host did not show it. */
  readonly timesInEach: number;
}

/** What did foreign pieces show once a step was taken: the worst effect seen, and the runs (ids)? */
export interface AfterStep {
  readonly step: 'authorised' | 'calibrated' | 'identity-moved';
  readonly code: EffectCode;
  readonly runs: readonly string[];
}

/** What did foreign pieces of a part show on one firmware version, whatever the cause? */
export interface EffectOnFirmware {
  /** Undefined: the firmware was not recorded. */
  readonly firmware?: string;
  /** The worst effect that at least two runs showed, else the worst that one did; undefined where no run tells. */
  readonly code?: EffectCode;
  readonly isReproduced: boolean;
  readonly level: TestedLevel;
  readonly afterSteps: readonly AfterStep[];
  readonly cell: EffectCell;
  readonly shareOfUnits?: Explained;
  readonly fisher?: Explained;
}

/** What is looked at: the runs of one part, pools told apart; those set aside; the firmware versions, oldest first. */
export interface EffectsRequest {
  readonly part: string;
  readonly runs: readonly SwapRun[];
  readonly setAside: readonly SetAside[];
  readonly firmware: readonly string[];
}

/** What did foreign pieces of a part show on each firmware version, the oldest first? Versions without a foreign fit are left out. */
export const effectsOf = ({ part, runs, setAside, firmware }: EffectsRequest): readonly EffectOnFirmware[] => {
  const aside = new Map(setAside.map(({ run, why }) => [run, why]));
  const table = effectTable({ runs: new Map([[part, runs]]), listedFirmware: firmware, setAside: aside });
  return table.rows.flatMap(({ cells }) => cells).flatMap((cell) => effectOf(cell, runs, new Set(aside.keys())));
};

const effectOf = (
  cell: EffectCell,
  all: readonly SwapRun[],
  setAside: ReadonlySet<string>,
): readonly EffectOnFirmware[] => {
  const tried = all.filter((run) => run.firmware === cell.firmware && !run.isOwn);
  if (tried.length === 0) return [];
  const foreign = tried.filter((run) => isPlainForeign(run) && isSeenAlone(run) && !setAside.has(run.id));
  const code = cell.reproduced ?? cell.worst;
  const counted: CountedRuns = { foreign, all, firmware: cell.firmware, setAside };
  const [share, fisher] = [shareOfUnits(counted), controlAgainstForeign(counted)];
  return [
    {
      ...(cell.firmware === undefined ? {} : { firmware: cell.firmware }),
      ...(code === undefined ? {} : { code }),
      isReproduced: cell.reproduced !== undefined,
      level: levelOf(foreign, code),
      afterSteps: afterStepsOf(tried.filter((run) => isSeenAlone(run) && !setAside.has(run.id))),
      cell,
      ...(share ? { shareOfUnits: share } : {}),
      ...(fisher ? { fisher } : {}),
    },
  ];
};

const afterStepsOf = (runs: readonly SwapRun[]): readonly AfterStep[] =>
  (['authorised', 'identity-moved', 'calibrated'] as const).flatMap((step) => {
    const taken = runs.filter((run) => stepOf(run) === step);
    const code = taken
      .flatMap(({ effect }) => effect ?? [])
      .sort()
      .at(-1);
    return code === undefined ? [] : [{ step, code, runs: taken.map(({ id }) => id) }];
  });

const stepOf = ({ authorised, identityMoved, calibrated }: SwapRun): AfterStep['step'] | undefined => {
  if (authorised) return 'authorised';
  if (identityMoved) return 'identity-moved';
  return calibrated ? 'calibrated' : undefined;
};

const levelOf = (foreign: readonly SwapRun[], code: EffectCode | undefined): TestedLevel => {
  const hosts = [...new Set(foreign.map(({ host }) => host))];
  const isSame = ({ outcome }: SwapRun): boolean => (outcome === 'passed') === (code === 'E0');
  const times = hosts.map((host) => foreign.filter((run) => run.host === host && isSame(run)).length);
  return { hosts, directions: directionsOf(foreign), timesInEach: times.length === 0 ? 0 : Math.min(...times) };
};

const directionsOf = (foreign: readonly SwapRun[]): Directions => {
  const exchanged = foreign.filter(({ piece }) => piece.home !== undefined);
  if (exchanged.length === 0) return 'spares';
  const isReturned = (run: SwapRun): boolean =>
    exchanged.some(({ host, piece }) => host === run.piece.home && piece.home === run.host);
  return exchanged.some(isReturned) ? 'both' : 'one';
};
