import type { Assessment } from '#record/schema/assessment';
import { ARM_NAMES } from '#swaps/model/fit-words';
import type { Missing } from '#swaps/plan/prospects';
import type { SheetFit, SheetRun } from '#swaps/plan/sheet-run';

/** What a bench lacks, in words. */
export const MISSING_WORDS: Readonly<Record<Missing, string>> = {
  'authorised-step': 'an authorised step that the assessor may take',
  calibration: 'a calibration without authorisation',
  'newer-firmware': 'a newer firmware',
  'other-specimen': 'one more specimen',
  revisions: 'the revisions of the parts, read from their markings',
  'home-lock': 'whether the home unit of a piece is locked or lost',
  matings: 'connectors with matings left',
  'foreign-piece': 'a foreign piece',
};

/** How is a run read out at the bench: the specimen and its firmware, then part by part what is fitted and done? */
export const runSheetWords = (
  assessment: Assessment,
  run: SheetRun,
): { readonly head: string; readonly fits: readonly string[] } => {
  const host = specimenWords(assessment, run.host);
  const firmware = run.firmware === undefined ? '' : `, ${run.update ? 'updated to' : 'on'} firmware ${run.firmware}`;
  return { head: `${host}${firmware}`, fits: run.fits.map((fit) => fitWords(assessment, fit)) };
};

const specimenWords = ({ specimens }: Assessment, id: string): string => specimens?.[id]?.name ?? `specimen ${id}`;

const fitWords = (assessment: Assessment, fit: SheetFit): string => {
  const name = assessment.parts?.[fit.part]?.name ?? fit.part;
  const steps = [
    ...(fit.identityMoved ? ['own identity moved'] : []),
    ...(fit.authorised ? ['authorised'] : []),
    ...(fit.calibrated ? ['calibrated'] : []),
  ];
  const more = steps.length === 0 ? '' : `, ${steps.join(', ')}`;
  return `${name}: ${pieceWords(assessment, fit)}${more} (${ARM_NAMES[fit.arm]})`;
};

const pieceWords = (assessment: Assessment, { piece, isOwn, handled, from }: SheetFit): string => {
  if (!handled) return isOwn ? 'own part, left in place' : 'as fitted, left in place';
  if (isOwn)
    return from === undefined ? 'own part out and in again' : `own part back, from ${specimenWords(assessment, from)}`;
  const home = piece.startsWith('specimen:') ? specimenWords(assessment, piece.slice('specimen:'.length)) : undefined;
  return home === undefined ? `fit ${piece}` : `fit the part of ${home}`;
};
