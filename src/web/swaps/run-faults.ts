import { sameDimension } from '#quantity/dimension';
import { parseQuantity } from '#quantity/parse-quantity';
import { quantityKind } from '#quantity/quantity';
import { controlIn } from '#record/schema/basics';
import { type FitDraft, isForeign, type MeasuredDraft, type RunDraft } from './run-draft.ts';
import { isMeasured } from './swaps-of-draft.ts';

/** Longest text of one field and longest quantity, as the record takes them [characters]. */
const MOST_TEXT = 10_000;

/** What on the sheet cannot be written as it is, at which field, and what to do. */
export interface RunFault {
  /** Index of the fit; missing for what holds for the whole run. */
  readonly fit?: number;
  readonly field: string;
  readonly words: string;
}

/**
 * What of a run on the sheet cannot be written? A run that is broken off needs no effect. Nothing is cut: what is too long stays on
 * the sheet, and its limit is said.
 */
export const runFaults = (run: RunDraft, isBrokenOff = false): readonly RunFault[] => [
  ...(run.host === '' ? [{ field: 'host', words: 'Choose the specimen that is started.' }] : []),
  ...(run.fits.length === 0 ? [{ field: 'fits', words: 'Choose at least one part to look at.' }] : []),
  ...fieldFaults([
    ['firmware', textFault(run.firmware)],
    ['account', textFault(run.account)],
    ['operator', textFault(run.operator)],
    ['charge', quantityFault(run.charge, '%')],
    ['soak', durationFault(run.soak)],
    ['at', run.session === '' ? undefined : numberFault(run.at)],
  ]),
  ...run.fits.flatMap((fit, index) => fitFaults(fit, { run, isBrokenOff }).map((fault) => ({ ...fault, fit: index }))),
];

type Found = readonly (readonly [field: string, words: string | undefined])[];

const fieldFaults = (found: Found): readonly RunFault[] =>
  found.flatMap(([field, words]) => (words === undefined ? [] : [{ field, words }]));

const fitFaults = (
  fit: FitDraft,
  { run, isBrokenOff }: { readonly run: RunDraft; readonly isBrokenOff: boolean },
): readonly RunFault[] => {
  const { notice, starts, pairing, calibration, piece } = fit;
  return fieldFaults([
    ['part', fit.part === '' ? 'Choose the part.' : undefined],
    ['piece', piece.choice === `specimen:${run.host}` ? 'A part out of the host is its own part.' : undefined],
    ['item', piece.choice === 'other' && isForeign(fit) ? itemFault(piece.item) : undefined],
    ['revision', textFault(piece.revision)],
    ['effect', effectFault(fit, isBrokenOff)],
    ['wording', textFault(notice.wording)],
    ['where', textFault(notice.where)],
    ['returns', textFault(notice.returns)],
    ['note', textFault(fit.note)],
    ['cost', quantityFault(pairing.cost)],
    ['calibration-cost', quantityFault(calibration.cost)],
    ['tried', countFault(starts.tried)],
    ['failed', countFault(starts.failed) ?? moreFailed(starts)],
    ['after', durationFault(starts.after)],
    ...fit.measured.flatMap(measuredFaults),
  ]);
};

const effectFault = ({ effect, masked, checks, notice }: FitDraft, isBrokenOff: boolean): string | undefined => {
  if (effect === '') return isBrokenOff || masked ? undefined : 'Say what the software made of the part.';
  if (effect !== 'E0') return undefined;
  const isSeen = Object.values(checks).some((result) => result === 'fail' || result === 'reduced');
  if (isSeen) return 'E0 is no trace at all, yet a function failed or was reduced: choose what was seen.';
  if (notice.wording.trim() !== '') return 'E0 is no trace at all, yet a notice was seen: choose what was seen.';
  return undefined;
};

const ID = /^[A-Za-z0-9][A-Za-z0-9._-]{0,79}$/;

const itemFault = (item: string): string | undefined =>
  ID.test(item.trim())
    ? undefined
    : 'Give the piece a short name of its own, in letters, digits and hyphens: the same name is the same piece.';

const textFault = (text: string): string | undefined => {
  const control = controlIn(text);
  if (control !== undefined) return `Here is the control character ${control}, which no record holds: take it out.`;
  return text.length <= MOST_TEXT
    ? undefined
    : `The record takes ${thousands(MOST_TEXT)} characters in one field; here are ${thousands(text.length)}. Nothing is cut: shorten it, or put it into a file among the evidence.`;
};

/** Thousands set apart, as figures stand on the sheets. */
const thousands = (count: number): string => String(count).replace(/(?<=\d)(?=(\d{3})+$)/g, ',');

const quantityFault = (text: string, unit?: string): string | undefined => {
  if (text.trim() === '') return undefined;
  const reading = parseQuantity(text);
  if (!reading.quantity) return sentence(reading.message, reading.remedy);
  return unit !== undefined && reading.quantity.unit.symbol !== unit ? `Write it in ${unit}.` : undefined;
};

const durationFault = (text: string): string | undefined => {
  if (text.trim() === '') return undefined;
  const reading = parseQuantity(text);
  if (!reading.quantity) return sentence(reading.message, 'Write a time, such as "2 min".');
  return quantityKind(reading.quantity) === 'time' ? undefined : 'Write a time, such as "2 min".';
};

const sentence = (message: string, remedy: string): string =>
  `${message.slice(0, 1).toUpperCase()}${message.slice(1)}. ${remedy}`;

const numberFault = (text: string): string | undefined =>
  text.trim() === '' || /^\d{1,8}([.]\d{1,3})?$/.test(text.trim()) ? undefined : 'Write seconds as a number.';

const countFault = (text: string): string | undefined =>
  text.trim() === '' || /^\d{1,4}$/.test(text.trim()) ? undefined : 'Write a whole number.';

const moreFailed = ({ tried, failed }: FitDraft['starts']): string | undefined =>
  tried.trim() !== '' && failed.trim() !== '' && Number(failed) > Number(tried)
    ? 'More starts failed than were tried.'
    : undefined;

const measuredFaults = (line: MeasuredDraft, index: number): Found => {
  if (!isMeasured(line)) return [];
  const [before, after] = [line.before, line.after].map((text) => parseQuantity(text).quantity);
  const differs = before && after && !sameDimension(before.unit.dimension, after.unit.dimension);
  return [
    [`of-${index}`, line.of.trim() === '' ? 'Say which function was measured.' : textFault(line.of)],
    [`before-${index}`, quantityFault(line.before)],
    [
      `after-${index}`,
      quantityFault(line.after) ??
        (differs ? `Before is ${quantityKind(before)}, after is ${quantityKind(after)}: write both alike.` : undefined),
    ],
  ];
};
