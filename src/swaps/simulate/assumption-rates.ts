import type { SeededNumbers } from '#quantity/seeded-numbers';
import { diagnoseAll, type PartDiagnosis } from '../diagnosis/diagnose.ts';
import type { Explanation } from '../model/explanation.ts';
import type { SwapRun } from '../model/swap-run.ts';
import type { Strays } from './answer-run.ts';
import { fullProtocol, PROTOCOL_FIRMWARE, PROTOCOL_HOSTS } from './full-protocol.ts';
import { drawTruth, type HiddenTruth } from './hidden-truth.ts';
import { isMet } from './met-truth.ts';
import { simulateRuns } from './simulate-runs.ts';

/** What became of the parts of some simulated devices: counts of parts. */
export interface AssumptionRates {
  readonly parts: number;
  readonly right: number;
  readonly wrong: number;
  /** Undecided, with the truth among what stands. */
  readonly open: number;
  /** Undecided, with the truth excluded. */
  readonly lost: number;
  /** No explanation stands: the diagnosis itself says that something it takes for granted does not hold. */
  readonly noticed: number;
}

/** How many devices with which parts, taken through the full protocol how, straying in what, drawn from which numbers. */
export interface RatesRequest {
  readonly devices: number;
  readonly isTogether: boolean;
  readonly strays: Strays;
  /** The numbers of the device with this place (from 1). */
  readonly randomOf: (device: number) => SeededNumbers;
}

/** Explanations that can be told apart by the full protocol: test errors are one of the ways to stray, circumstances are all known. */
const DRAWN: readonly Explanation[] = [
  'accepted',
  'bad-donor',
  'handling-damage',
  'missing-calibration',
  'firmware-bug',
  'unfixed-bug',
  'pairing-reversible',
  'pairing-latching',
];

const PARTS: readonly string[] = ['battery', 'camera', 'display', 'speaker'];
const PIECES: readonly string[] = PROTOCOL_HOSTS.map((host) => `specimen:${host}`);

/**
 * How often is a decision wrong when something the diagnosis takes for granted does not hold? Devices of four parts, each with a truth
 * of its own, all explanations alike likely (interacting parts are accepted each for itself), taken through the full protocol. Where
 * the runs seen never met the truth, accepted is right.
 */
export const assumptionRates = ({ devices, isTogether, strays, randomOf }: RatesRequest): AssumptionRates => {
  const rates = { parts: 0, right: 0, wrong: 0, open: 0, lost: 0, noticed: 0 };
  for (let device = 1; device <= devices; device++) {
    const random = randomOf(device);
    const truths = new Map(PARTS.map((part) => [part, truthOf(part, strays, random)]));
    const simulated = { truths, firmware: PROTOCOL_FIRMWARE, strays };
    const runs = simulateRuns(simulated, fullProtocol(PARTS, isTogether), random);
    for (const [part, found] of diagnoseAll(runs, { firmware: PROTOCOL_FIRMWARE })) {
      rates.parts += 1;
      const truth = truths.get(part);
      if (truth) rates[fateOf(truth, runs.get(part) ?? [], found)] += 1;
    }
  }
  return rates;
};

const truthOf = (part: string, { interacting }: Strays, random: SeededNumbers): HiddenTruth => {
  const choices = { hosts: PROTOCOL_HOSTS, pieces: PIECES, firmware: PROTOCOL_FIRMWARE, runs: 4 };
  const truth = drawTruth({ ...choices, explanations: DRAWN }, random);
  return interacting?.includes(part) ? { explanation: 'accepted', code: 'E5' } : truth;
};

type Fate = keyof Omit<AssumptionRates, 'parts'>;

const fateOf = (truth: HiddenTruth, runs: readonly SwapRun[], { standing, decided }: PartDiagnosis): Fate => {
  if (standing.length === 0) return 'noticed';
  const wasMet = isMet(truth, runs, PROTOCOL_FIRMWARE);
  const right = wasMet ? truth.explanation : 'accepted';
  if (decided !== undefined) return decided === right ? 'right' : 'wrong';
  return standing.some(({ explanation }) => explanation === right) ? 'open' : 'lost';
};
