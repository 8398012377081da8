import type { SeededNumbers } from '#quantity/seeded-numbers';
import type { Explanation } from '../model/explanation.ts';
import type { Suspicion } from '../model/suspicion.ts';
import type { EffectCode } from '../model/swap-run.ts';
import type { OrderedSetting } from '../signature/placed-run.ts';

/** What is really the matter with one part of a simulated device, and how trouble shows. */
export interface HiddenTruth {
  readonly explanation: Explanation;
  /** bad-donor: key of the bad piece. */
  readonly piece?: string;
  /** handling-damage: by host, at which of its handled runs (from 1) the damage is done. */
  readonly damagedAt?: Readonly<Record<string, number>>;
  /** firmware-bug: the last version that has it. */
  readonly lastFirmware?: string;
  /** test-error: the order of the run that is misread. */
  readonly misread?: number;
  /** What trouble with a foreign piece shows as: E1 to E6. */
  readonly code: EffectCode;
}

/** What a truth is drawn from: the bench it has to make sense at. */
export interface TruthChoices {
  readonly explanations: readonly Explanation[];
  readonly hosts: readonly string[];
  /** Keys of the pieces that may be fitted as foreign ones. */
  readonly pieces: readonly string[];
  /** Versions at hand, oldest first. */
  readonly firmware: readonly string[];
  /** Greatest order of a run that may be misread, and greatest handling at which damage may be done. */
  readonly runs: number;
}

const TROUBLE: readonly EffectCode[] = ['E1', 'E2', 'E3', 'E4', 'E5', 'E6'];

/**
 * What is the matter with one part of an invented device? Explanations alike likely among those given; those that the bench has no
 * place for (a mended bug with one version, a bad donor with no piece) come out as accepted.
 */
export const drawTruth = (choices: TruthChoices, random: SeededNumbers): HiddenTruth => {
  const explanation = pick(choices.explanations, random) ?? 'accepted';
  const code = explanation === 'missing-calibration' ? 'E4' : (pick(TROUBLE, random) ?? 'E5');
  const { hosts, pieces, firmware, runs } = choices;
  if (explanation === 'bad-donor') return withForm({ explanation, code }, { piece: pick(pieces, random) });
  if (explanation === 'firmware-bug')
    return withForm({ explanation, code }, { lastFirmware: pick(firmware.slice(0, -1), random) });
  if (explanation === 'test-error') return { explanation, code, misread: 1 + Math.floor(random() * runs) };
  if (explanation === 'handling-damage') return { explanation, code, damagedAt: drawDamage(hosts, runs, random) };
  return { explanation, code };
};

/** Which of these, alike likely? Undefined of none. */
export const pick = <T>(from: readonly T[], random: SeededNumbers): T | undefined =>
  from[Math.floor(random() * from.length)];

type Form = { readonly [Field in 'piece' | 'lastFirmware']?: string | undefined };

const withForm = (truth: HiddenTruth, { piece, lastFirmware }: Form): HiddenTruth => {
  if (piece === undefined && lastFirmware === undefined) return { explanation: 'accepted', code: truth.code };
  return {
    ...truth,
    ...(piece === undefined ? {} : { piece }),
    ...(lastFirmware === undefined ? {} : { lastFirmware }),
  };
};

/** One host for certain, each further one with a chance of one in four. */
const drawDamage = (
  hosts: readonly string[],
  runs: number,
  random: SeededNumbers,
): Readonly<Record<string, number>> => {
  const first = pick(hosts, random);
  const damaged = hosts.filter((host) => host === first || random() < 0.25);
  return Object.fromEntries(damaged.map((host) => [host, 1 + Math.floor(random() * Math.min(runs, 4))]));
};

/**
 * Which suspicion is the truth, once the runs are known in which it shows? Damage at the nth handling becomes damage from that run on;
 * handlings that never came do not count. `runs` are all runs of the part so far, in any order.
 */
export const suspicionOf = (truth: HiddenTruth, runs: readonly OrderedSetting[]): Suspicion => {
  const { explanation, piece, lastFirmware, misread, damagedAt } = truth;
  return {
    explanation,
    ...(piece === undefined ? {} : { piece }),
    ...(lastFirmware === undefined ? {} : { lastFirmware }),
    ...(misread === undefined ? {} : { misread }),
    ...(damagedAt === undefined ? {} : { damagedFrom: damagedFrom(damagedAt, runs) }),
  };
};

const damagedFrom = (
  damagedAt: Readonly<Record<string, number>>,
  runs: readonly OrderedSetting[],
): Readonly<Record<string, number>> => {
  const onsets = Object.entries(damagedAt).flatMap(([host, handling]) => {
    const handled = runs.filter((run) => run.host === host && run.handled).sort((a, b) => a.order - b.order);
    const onset = handled[handling - 1];
    return onset ? [[host, onset.order] as const] : [];
  });
  return Object.fromEntries(onsets);
};
