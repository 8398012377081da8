import { parseQuantity } from '#quantity/parse-quantity';
import { firmwareAt } from '#record/device/firmware-order';
import type { Assessment, Swap } from '#record/schema/assessment';
import type { Outcome, SwapRun } from './swap-run.ts';

/** From which charge on is a host charged enough to be tested [%]? Default of this tool, no source. */
const CHARGED_ENOUGH_PERCENT = 20;

/** Was the host closed, grounded and charged enough (20 %)? Undefined where one of these is not recorded and none is amiss. */
export const isReady = ({ closed, grounded, charge }: Swap): boolean | undefined => {
  const facts = [closed, grounded, isCharged(charge)];
  if (facts.includes(false)) return false;
  return facts.includes(undefined) ? undefined : true;
};

const isCharged = (charge: string | undefined): boolean | undefined => {
  if (charge === undefined) return undefined;
  const { quantity } = parseQuantity(charge);
  return quantity?.unit.symbol === '%' ? quantity.value >= CHARGED_ENOUGH_PERCENT : undefined;
};

/** Which firmware had the host? As the fit says, else its session, else the specimen's own history at that moment. */
export const firmwareOf = (swap: Swap, assessment: Assessment): string | undefined => {
  const session = swap.session === undefined ? undefined : assessment.sessions?.[swap.session];
  if (swap.firmware !== undefined || session?.firmware !== undefined) return swap.firmware ?? session?.firmware;
  const moment = swap.on ?? session?.start;
  return moment === undefined ? undefined : firmwareAt(assessment, swap.specimen, moment);
};

/** What was done to the piece since it was fitted, and was the place opened for this run? */
export type Treatment = Pick<SwapRun, 'handled' | 'calibrated' | 'authorised' | 'identityMoved'>;

/** Stages for which the piece stays where it is. */
const STAYS: readonly (string | undefined)[] = ['baseline', 'authorised', 'calibrated', 'firmware'];

/**
 * What was done to the piece, given the run before it in the same place of the same host? A piece that stays for an authorised
 * step, a calibration or an update keeps what was done to it; one that is fitted anew does not. A first baseline is of an unopened
 * place. Where nothing says otherwise the place counts as opened for the run.
 */
export const treatmentOf = (swap: Swap, pieceKey: string, before: SwapRun | undefined): Treatment => {
  const stays = STAYS.includes(swap.arm) && (before ? before.piece.key === pieceKey : swap.arm === 'baseline');
  const kept = stays ? before : undefined;
  return {
    handled: !stays,
    calibrated: swap.calibrated ?? (swap.arm === 'calibrated' || kept?.calibrated === true),
    authorised: swap.pairing !== undefined || swap.arm === 'authorised' || kept?.authorised === true,
    identityMoved: swap.identityMoved ?? (swap.arm === 'identity-moved' || kept?.identityMoved === true),
  };
};

/** What did a fit show, taken alone? Broken off without an effect seen, or hidden by another part, is unseen. */
export const outcomeOf = ({ effect, masked, interrupted }: Swap): Outcome => {
  if (effect === undefined || masked === true) return 'unseen';
  if (effect === 'E0') return interrupted === true ? 'unseen' : 'passed';
  return effect === 'E4' ? 'reduced' : 'failed';
};
