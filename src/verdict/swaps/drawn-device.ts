import type { SeededNumbers } from '#quantity/seeded-numbers';
import type { Explanation } from '#swaps/model/explanation';
import { donorPiece, ownPiece, type SwapProblem } from '#swaps/plan/swap-problem';
import type { SimulatedDevice, Strays } from '#swaps/simulate/answer-run';
import { drawTruth, type HiddenTruth } from '#swaps/simulate/hidden-truth';

/** What is asked of an invented device: truths that are given by part, and how it strays from what the diagnosis takes for granted. */
export interface DeviceRequest {
  readonly truths?: ReadonlyMap<string, Explanation>;
  readonly strays?: Strays;
}

/** Handled runs within which damage in handling may be done. */
const DAMAGE_WITHIN = 4;

/**
 * A device that fits a bench and hides what is the matter with each part: as given, else drawn among what the bench has a place for,
 * alike likely. The same numbers give the same device.
 */
export const drawnDevice = (
  problem: SwapProblem,
  random: SeededNumbers,
  { truths = new Map(), strays }: DeviceRequest = {},
): SimulatedDevice => {
  const drawn = problem.parts.map(({ id }): readonly [string, HiddenTruth] => {
    const given = truths.get(id);
    const explanations = given === undefined ? possibleAt(problem, id) : [given];
    return [
      id,
      drawTruth(
        {
          explanations,
          hosts: problem.hosts.map((host) => host.id),
          pieces: piecesOf(problem, id),
          firmware: problem.firmware,
          runs: DAMAGE_WITHIN,
        },
        random,
      ),
    ];
  });
  return { truths: new Map(drawn), firmware: problem.firmware, ...(strays ? { strays } : {}) };
};

const piecesOf = ({ hosts, donors }: SwapProblem, part: string): readonly string[] => [
  ...hosts.map((host) => ownPiece(host, part).key),
  ...donors.filter((donor) => donor.part === part).map((donor) => donorPiece(donor).key),
];

/**
 * What can be the matter with a part at this bench? Everything but what cannot show, since every host is ready and settled and no run
 * is misread; a blocked donor only where a piece comes from a locked or lost unit, another revision only where one is known.
 */
const possibleAt = ({ hosts, donors }: SwapProblem, part: string): readonly Explanation[] => {
  const pieces = donors.filter((donor) => donor.part === part);
  const isBlocked = [...hosts, ...pieces].some(({ homeLock }) => homeLock === 'locked' || homeLock === 'lost');
  const revisions = new Set([
    ...hosts.flatMap((host) => host.revisions?.[part] ?? []),
    ...pieces.flatMap(({ revision }) => revision ?? []),
  ]);
  return [
    'accepted',
    'bad-donor',
    'handling-damage',
    'missing-calibration',
    'firmware-bug',
    'unfixed-bug',
    'pairing-reversible',
    'pairing-latching',
    ...(isBlocked ? (['donor-home-locked'] as const) : []),
    ...(revisions.size > 1 ? (['revision-mismatch'] as const) : []),
  ];
};
