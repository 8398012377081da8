import { checksOf } from '#record/device/function-checks';
import type { Assessment, Swap } from '#record/schema/assessment';
import { isOwnFit } from '#swaps/model/piece-of';
import {
  type FitDraft,
  newFit,
  newRun,
  OWN_PIECE,
  type PieceDraft,
  type RunDraft,
  type Said,
  type StepDraft,
} from './run-draft.ts';

/**
 * How does a run on record stand on the sheet, to be gone on with or corrected? Each of its fits takes the place of the one on record;
 * what holds for the whole run is read from the first. Undefined where there is no fit.
 */
export const draftOfSwaps = (
  document: Assessment,
  fits: readonly (readonly [id: string, swap: Swap])[],
): RunDraft | undefined => {
  const [first] = fits;
  if (!first) return undefined;
  const [, swap] = first;
  return {
    ...newRun(swap.run ?? 0, swap.specimen),
    firmware: swap.firmware ?? '',
    on: swap.on ?? '',
    account: swap.account ?? '',
    network: saidOf(swap.network),
    charge: swap.charge ?? '',
    closed: saidOf(swap.closed),
    grounded: saidOf(swap.grounded),
    soak: durationText(swap.soak),
    settled: saidOf(swap.settled),
    operator: swap.operator ?? '',
    session: swap.session ?? '',
    at: swap.at === undefined ? '' : String(swap.at),
    evidence: [...new Set(fits.flatMap(([, { evidence = [] }]) => evidence))],
    fits: fits.map(([id, fit]) => fitOf(document, id, fit)),
  };
};

/** A bare number of the record is seconds. */
const durationText = (duration: number | string | undefined): string =>
  duration === undefined ? '' : typeof duration === 'number' ? `${duration} s` : duration;

/** How does a fact that may be unknown stand on the sheet? */
const saidOf = (fact: boolean | undefined): Said => (fact === undefined ? '' : fact ? 'yes' : 'no');

const fitOf = (document: Assessment, id: string, swap: Swap): FitDraft => {
  const known = new Set(checksOf(document, swap.part).map((check) => check.id));
  const { notice, pairing, starts } = swap;
  return {
    ...newFit(swap.part),
    arm: swap.arm ?? '',
    piece: pieceOf(document, swap),
    checks: swap.checks ?? {},
    addedChecks: Object.keys(swap.checks ?? {})
      .filter((key) => !known.has(key))
      .map((key) => ({ key, name: document.swapBench?.checks?.[key]?.name ?? key })),
    effect: swap.effect ?? '',
    isOfRun: swap.effectOf === 'run',
    masked: swap.masked === true,
    calibrated: swap.calibrated === true,
    identityMoved: swap.identityMoved === true,
    pairing: { ...stepOf(pairing), remote: pairing?.remote ?? '' },
    calibration: stepOf(swap.calibration),
    notice: {
      wording: notice?.wording ?? '',
      where: notice?.where ?? '',
      about: notice?.about ?? '',
      misleading: saidOf(notice?.misleading),
      dismissible: saidOf(notice?.dismissible),
      returns: notice?.returns ?? '',
    },
    measured: (swap.measured ?? []).map(({ of, before = '', after = '' }) => ({ of, before, after })),
    starts: {
      tried: starts?.tried === undefined ? '' : String(starts.tried),
      failed: starts?.failed === undefined ? '' : String(starts.failed),
      after: durationText(starts?.after),
    },
    note: swap.note ?? '',
    corrects: id,
  };
};

const stepOf = (step: Swap['calibration']): StepDraft => ({
  by: step?.by ?? '',
  network: saidOf(step?.network),
  account: saidOf(step?.account),
  cost: step?.cost ?? '',
});

const pieceOf = ({ swapBench }: Assessment, swap: Swap): PieceDraft => {
  if (isOwnFit(swap) === true) return OWN_PIECE;
  const { donor } = swap;
  if (!donor) return { ...OWN_PIECE, choice: 'other' };
  const { item, specimen, kind, revision = '', homeLock = 'unknown' } = donor;
  const piece = { kind, item: item ?? '', revision, homeLock };
  if (item === undefined) return { ...piece, choice: specimen === undefined ? 'other' : `specimen:${specimen}` };
  return { ...piece, choice: swapBench?.donors?.[item] ? `donor:${item}` : 'other' };
};
