import { firmwareAt } from '#record/device/firmware-order';
import type { Assessment, Swap } from '#record/schema/assessment';
import { standingSwaps } from '#record/standing-swaps';
import { DONOR_NAMES } from '#swaps/model/fit-words';
import { ownRevision } from '#swaps/model/piece-of';
import type { SuggestedRun } from './plan-of-bench.ts';
import { nextRunNumber, partName, specimenName } from './recorded-runs.ts';
import {
  type Arm,
  type FitDraft,
  newFit,
  newRun,
  OWN_PIECE,
  type PieceChoice,
  type PieceDraft,
  type RunDraft,
} from './run-draft.ts';
import { splitChoice } from './swaps-of-draft.ts';

/** When a run is begun, and by whom. */
export interface Beginning {
  /** RFC 3339. */
  readonly now: string;
  readonly operator: string;
}

/** How does a run of a specimen begin on the sheet? With what went on with it last; what has to be seen anew stays open. */
export const beginRun = (document: Assessment, host: string, { now, operator }: Beginning): RunDraft => {
  const last = fitsOf(document, host).at(-1);
  return {
    ...newRun(nextRunNumber(document), host),
    firmware: last?.firmware ?? firmwareAt(document, host, now) ?? '',
    account: last?.account ?? '',
    network: last?.network === undefined ? '' : last.network ? 'yes' : 'no',
    operator,
  };
};

/** Under which number is a new run saved? The next one, where another window has taken its own meanwhile; a correction keeps its number. */
export const withFreeNumber = (document: Assessment, run: RunDraft): RunDraft => {
  const isTaken = Object.values(document.swaps ?? {}).some((swap) => swap.run === run.run);
  const isNew = run.fits.every(({ corrects }) => corrects === undefined);
  return isTaken && isNew ? { ...run, run: nextRunNumber(document) } : run;
};

/** How does a run that the plan suggests begin on the sheet? */
export const beginSuggested = (document: Assessment, suggested: SuggestedRun, beginning: Beginning): RunDraft => {
  const run = beginRun(document, suggested.host, beginning);
  return {
    ...run,
    firmware: suggested.firmware ?? run.firmware,
    fits: suggested.fits.map(({ part, piece, arm, calibrated, identityMoved, stays }) => ({
      ...newFit(part),
      arm,
      piece: pieceChosen(document, part, piece),
      calibrated,
      identityMoved,
      stays,
    })),
  };
};

/** A fit of a part that was chosen by hand: the own part, at the stage that comes next. */
export const chosenFit = (document: Assessment, run: RunDraft, part: string): FitDraft => ({
  ...newFit(part),
  arm: likelyArm(document, { host: run.host, part, choice: 'own', firmware: run.firmware }),
});

/** What is known of a piece once it is chosen: its origin, revision and lock, as the record has them. */
export const pieceChosen = (document: Assessment, part: string, choice: PieceChoice): PieceDraft => {
  const [from, key] = splitChoice(choice);
  if (from === 'specimen') {
    const lock = document.specimens?.[key]?.accountLock;
    const context = { assessment: document, standing: standingSwaps(document.swaps) };
    return {
      ...OWN_PIECE,
      choice,
      revision: ownRevision(key, part, context) ?? '',
      homeLock: lock === 'none' || lock === 'locked' ? lock : 'unknown',
    };
  }
  const donor = from === 'donor' ? document.swapBench?.donors?.[key] : undefined;
  if (!donor) return { ...OWN_PIECE, choice };
  return {
    choice,
    kind: donor.kind,
    item: key,
    revision: donor.revision ?? '',
    homeLock: donor.homeLock ?? 'unknown',
  };
};

/** Which pieces can be fitted at a place of a host? */
export const pieceOptions = (
  document: Assessment,
  { host, part }: { readonly host: string; readonly part: string },
): readonly { readonly value: PieceChoice; readonly label: string }[] => [
  { value: 'own', label: 'its own part' },
  ...Object.keys(document.specimens ?? {})
    .filter((id) => id !== host)
    .map((id) => ({ value: `specimen:${id}` as const, label: `that of ${specimenName(document, id)}` })),
  ...Object.entries(document.swapBench?.donors ?? {})
    .filter(([, donor]) => donor.part === part)
    .map(([id, donor]) => ({ value: `donor:${id}` as const, label: `${id}, ${DONOR_NAMES[donor.kind]}` })),
  { value: 'other', label: 'another piece from elsewhere' },
];

/** What a stage is guessed from. */
export interface Place {
  readonly host: string;
  readonly part: string;
  readonly choice: PieceChoice;
  readonly firmware: string;
}

/** Which stage of the protocol would a fit probably be? A first guess, for the person to correct. */
export const likelyArm = (document: Assessment, { host, part, choice, firmware }: Place): Arm => {
  const before = fitsOf(document, host).filter((swap) => swap.part === part);
  const last = before.at(-1);
  const isSame = last !== undefined && choiceOf(last) === choice;
  if (isSame && firmware !== '' && last.firmware !== undefined && last.firmware !== firmware) return 'firmware';
  if (choice === 'own') {
    if (before.length === 0) return 'baseline';
    return last && choiceOf(last) !== 'own' ? 'swap-back' : 'refit-control';
  }
  const isNew = !before.some((swap) => choiceOf(swap) === choice && (firmware === '' || swap.firmware === firmware));
  return isNew ? 'cross' : 'replicate';
};

const choiceOf = ({ fitted, donor }: Swap): PieceChoice => {
  if (fitted === 'own' || !donor) return 'own';
  if (donor.item !== undefined) return `donor:${donor.item}`;
  return donor.specimen === undefined ? 'other' : `specimen:${donor.specimen}`;
};

const fitsOf = ({ swaps }: Assessment, host: string): readonly Swap[] =>
  standingSwaps(swaps).flatMap(([, swap]) => (swap.specimen === host ? [swap] : []));

/** Which firmware versions can a host have in its next run? Those at hand that are not older than the one it has. */
export const firmwareOptions = ({ swapBench }: Assessment, current: string): readonly string[] => {
  const listed = swapBench?.firmware ?? [];
  const at = listed.indexOf(current);
  const ahead = at < 0 ? listed : listed.slice(at);
  return current === '' || ahead.includes(current) ? ahead : [current, ...ahead];
};

/** What is to be done, a line for all parts of which the same is done. */
export const runLines = (document: Assessment, run: RunDraft): readonly string[] => {
  const byDeed = new Map<string, string[]>();
  for (const fit of run.fits) {
    const deed = deedOf(document, run, fit);
    byDeed.set(deed, [...(byDeed.get(deed) ?? []), partName(document, fit.part)]);
  }
  return [...byDeed].map(([deed, names]) => `${names.join(', ')}: ${deed}`);
};

/** What is to be done with one part, in words that hold for several as well. */
export const deedOf = (document: Assessment, run: RunDraft, fit: FitDraft): string => {
  const host = specimenName(document, run.host);
  if (fit.arm === 'baseline') return `left as found in ${host}; nothing is opened.`;
  const step = fit.arm === '' ? '' : (STEP_WORDS[fit.arm] ?? '');
  const stays = fit.stays ?? (step !== '' && fit.arm !== 'identity-moved' && sitsThere(document, run, fit));
  if (stays) return `left as fitted in ${host}${step === '' ? '; look again' : step}.`;
  return `${moveOf(document, host, fit)}${step}.`;
};

const STEP_WORDS: Readonly<Partial<Record<Arm, string>>> = {
  authorised: '; then take the step that makes the part known',
  calibrated: '; then calibrate',
  firmware: ', under the newer firmware',
  'identity-moved': ', with the identity of the own one moved onto it',
};

const moveOf = (document: Assessment, host: string, { piece, arm }: FitDraft): string => {
  const [from, key] = splitChoice(piece.choice);
  if (from === 'own')
    return arm === 'swap-back' ? `the own one back into ${host}` : `the own one out of ${host} and in again`;
  const what =
    from === 'specimen'
      ? `from ${specimenName(document, key)}`
      : `the piece ${key || piece.item || 'from elsewhere'} (${DONOR_NAMES[piece.kind]})`;
  return `${what} into ${host}`;
};

/** Was the piece fitted in this host last, and nowhere else since? */
const sitsThere = ({ swaps }: Assessment, { host }: RunDraft, { part, piece }: FitDraft): boolean => {
  const ofPart = standingSwaps(swaps).flatMap(([, swap]) => (swap.part === part ? [swap] : []));
  const here = ofPart.findLast((swap) => swap.specimen === host);
  const isMoved = ofPart.some(
    (swap) => swap.specimen !== host && isPiece(swap, piece.choice) && (swap.run ?? 0) > (here?.run ?? 0),
  );
  return (here === undefined ? piece.choice === 'own' : choiceOf(here) === piece.choice) && !isMoved;
};

/** Was this the piece that was fitted? The own part of a specimen is its own when it is back there. */
const isPiece = (swap: Swap, choice: PieceChoice): boolean =>
  choiceOf(swap) === choice || (choiceOf(swap) === 'own' && choice === `specimen:${swap.specimen}`);

/** Is the specimen to be brought to another firmware before the run? */
const isUpdated = (document: Assessment, { host, firmware, on }: RunDraft): boolean => {
  const last = fitsOf(document, host).at(-1)?.firmware ?? (on === '' ? undefined : firmwareAt(document, host, on));
  return firmware !== '' && last !== undefined && last !== firmware;
};

/** How does the head of a run read: its number, its specimen, its firmware? */
export const runTitle = (document: Assessment, run: RunDraft): string => {
  const firmware =
    run.firmware === '' ? '' : `${isUpdated(document, run) ? ', updated to' : ','} firmware ${run.firmware}`;
  return `Run ${run.run}: ${specimenName(document, run.host)}${firmware}`;
};
