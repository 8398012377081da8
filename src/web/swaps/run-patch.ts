import { applyPatch } from '#record/patch/apply-patch';
import type { Patch } from '#record/patch/operation';
import { showPath } from '#record/problem';
import type { Assessment, Swap } from '#record/schema/assessment';
import { checkAssessment } from '#record/validate/check-assessment';
import { add, inMap } from '../bench/commands/patch-parts.ts';
import { benchOperations } from './bench-operations.ts';
import type { FitDraft, RunDraft } from './run-draft.ts';
import { swapOf } from './swaps-of-draft.ts';

/** How a run is written: by chance, so that no two windows write under one id, and whether it is broken off. */
export interface Writing {
  readonly random: () => number;
  readonly isBrokenOff?: boolean;
}

/** Which patch writes a run on the sheet, and under which ids? Only new entries: a correction points at the one it takes the place of. */
export const runPatch = (
  document: Assessment,
  run: RunDraft,
  { random, isBrokenOff = false }: Writing,
): { readonly ids: readonly string[]; readonly patch: Patch } => {
  const written = run.fits.map((fit): readonly [string, Swap] => {
    const old = fit.corrects === undefined ? undefined : document.swaps?.[fit.corrects];
    const swap = swapOf(run, fit, old);
    return [swapId(run, fit, random), isBrokenOff ? { ...swap, interrupted: true } : swap];
  });
  return {
    ids: written.map(([id]) => id),
    patch: [
      ...benchOperations(document, run.fits),
      ...inMap(document, 'swaps'),
      ...written.map(([id, swap]) => add(['swaps', id], swap)),
    ],
  };
};

/** Which patch says that a fit on record did not happen? The entry stays, a new one withdraws it. */
export const withdrawalPatch = (
  document: Assessment,
  withdrawn: readonly string[],
  { random, on, operator }: Writing & { readonly on: string; readonly operator: string },
): Patch =>
  withdrawn.flatMap((id) => {
    const old = document.swaps?.[id];
    if (!old) return [];
    const { specimen, part } = old;
    const by = operator === '' ? {} : { operator };
    return [
      add(['swaps', `${id.slice(0, 60)}-${chance(random)}`], {
        specimen,
        part,
        on,
        ...by,
        corrects: id,
        withdrawn: true,
      }),
    ];
  });

/** `r23-battery-k3f9`: the run and the part for the reader, four letters by chance. */
const swapId = ({ run }: RunDraft, { part }: FitDraft, random: () => number): string =>
  `r${String(run).padStart(2, '0')}-${part.slice(0, 60)}-${chance(random)}`;

const chance = (random: () => number): string =>
  Math.floor(random() * 36 ** 4)
    .toString(36)
    .padStart(4, '0');

/**
 * What would the record's own rules say against a patch, in words? Only what the patch brings: errors that are there already are not
 * its own. Undefined where it may be written. Cost: two checks of the record.
 */
export const ruledOut = (document: Assessment, patch: Patch): string | undefined => {
  const applied = applyPatch(document, patch);
  if (!applied.fits) return applied.message;
  const before = new Set(errorsOf(document));
  return errorsOf(applied.document).find((words) => !before.has(words));
};

const errorsOf = (document: Assessment): readonly string[] =>
  checkAssessment(document)
    .filter(({ severity }) => severity === 'error')
    .map(({ path, message, remedy }) => `${showPath(path)}: ${message}. ${remedy}`);
