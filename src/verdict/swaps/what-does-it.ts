import type { SwapCause } from '#schemes/duties/duty-subject';
import type { PartDiagnosis } from '#swaps/diagnosis/diagnose';
import { type EffectCell, effectTable } from '#swaps/lineage/effect-table';
import type { Explanation } from '#swaps/model/explanation';
import type { SwapRun } from '#swaps/model/swap-run';

/** What do consequences rest on? The runs of one part, the effects by firmware, and what still stands. */
export interface JudgedPart {
  readonly part: string;
  readonly runs: readonly SwapRun[];
  readonly effects: readonly { readonly cell: EffectCell }[];
  readonly standing: readonly { readonly explanation: Explanation }[];
  /** What pieces of locked or lost home units showed, where they are told apart from the others. */
  readonly blocked?: readonly { readonly cell: EffectCell }[];
}

type JudgedDiagnosis = Pick<PartDiagnosis, 'part' | 'standing' | 'newestAlone' | 'setAside'> &
  Pick<JudgedPart, 'effects'>;

/**
 * A part with its diagnosis. Where no explanation agrees with the runs on every firmware version, what stands by those on the newest
 * alone counts: consequences speak of that version. Where a blocked donor is all that stands, the refused pieces are put apart:
 * what the software makes of the others is another question.
 */
export const judgedPart = (
  { part, effects, standing, newestAlone, setAside }: JudgedDiagnosis,
  runs: readonly SwapRun[],
): JudgedPart => {
  const judged = { part, runs, effects, standing: newestAlone?.standing ?? standing };
  if (!all(standingOf(judged), BLOCKED)) return judged;
  const blocked = runs.filter(({ piece }) => piece.homeLock === 'locked' || piece.homeLock === 'lost');
  const aside = [
    ...setAside.map(({ run, why }) => [run, why] as const),
    ...blocked.map(({ id }) => [id, 'piece of a locked or lost unit'] as const),
  ];
  const cells = (ofRuns: readonly SwapRun[], without: ReadonlyMap<string, string>): JudgedPart['effects'] =>
    effectTable({
      runs: new Map([[part, ofRuns]]),
      listedFirmware: effects.flatMap(({ cell }) => cell.firmware ?? []),
      setAside: without,
    }).rows.flatMap((row) => row.cells.map((cell) => ({ cell })));
  return { ...judged, effects: cells(runs, new Map(aside)), blocked: cells(blocked, new Map()) };
};

const PAIRING: ReadonlySet<Explanation> = new Set(['pairing-reversible', 'pairing-latching']);

const BLOCKED: ReadonlySet<Explanation> = new Set(['donor-home-locked']);

const SOFTWARE: ReadonlySet<Explanation> = new Set([...PAIRING, 'firmware-bug', 'unfixed-bug']);

/** With any of these the software takes a sound piece of the same revision from a free home unit. */
const TAKEN: ReadonlySet<Explanation> = new Set([
  'accepted',
  'bad-donor',
  'handling-damage',
  'revision-mismatch',
  'gauge-or-cache',
  'host-not-ready',
  'test-error',
  'donor-home-locked',
]);

const standingOf = ({ standing }: Pick<JudgedPart, 'standing'>): readonly Explanation[] =>
  standing.map(({ explanation }) => explanation);

const all = (explanations: readonly Explanation[], of: ReadonlySet<Explanation>): boolean =>
  explanations.length > 0 && explanations.every((explanation) => of.has(explanation));

/**
 * What does it, by all that still stands? Pairing, whether it latches or not; software where a bug is not told from it; a missing
 * calibration; nothing, where whatever stands takes sound pieces and one was seen taken. Else open: undecided is never guessed.
 */
export const whatDoesIt = (judged: JudgedPart): SwapCause => {
  const standing = standingOf(judged);
  if (all(standing, PAIRING)) return 'pairing';
  const cell = newestCell(judged);
  if (all(standing, new Set(['firmware-bug'])) && cell?.worst === 'E0') return 'none';
  if (all(standing, SOFTWARE)) return 'software';
  if (all(standing, new Set(['missing-calibration']))) return 'calibration';
  return all(standing, TAKEN) && cell?.worst === 'E0' ? 'none' : 'open';
};

/** Which effects showed on the newest firmware on which foreign fits say anything? Undefined where none does. */
export const newestCell = ({ effects }: Pick<JudgedPart, 'effects'>): EffectCell | undefined => {
  const tested = effects.map(({ cell }) => cell).filter(({ worst }) => worst !== undefined);
  return tested.findLast(({ firmware }) => firmware !== undefined) ?? tested.at(-1);
};
