import { checksOf, type FunctionCheck } from '#record/device/function-checks';
import type { Operation } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { add, inMap } from '../bench/commands/patch-parts.ts';
import type { FitDraft } from './run-draft.ts';

/** What does a run add to what is at hand? Pieces from elsewhere that are not listed yet, and changed function lists. */
export const benchOperations = (document: Assessment, fits: readonly FitDraft[]): readonly Operation[] => {
  const inside = [...donorOperations(document, fits), ...checklistOperations(document, fits)];
  return inside.length === 0 ? [] : [...inMap(document, 'swapBench'), ...inside];
};

/** A piece from elsewhere is listed with its first run, so that the next one finds it. */
const donorOperations = ({ swapBench }: Assessment, fits: readonly FitDraft[]): readonly Operation[] => {
  const fresh = fits.filter(
    ({ piece }) => piece.choice === 'other' && swapBench?.donors?.[piece.item.trim()] === undefined,
  );
  if (fresh.length === 0) return [];
  return [
    ...(swapBench?.donors === undefined ? [add(['swapBench', 'donors'], {})] : []),
    ...fresh.map(({ part, piece: { kind, item, revision, homeLock } }) =>
      add(['swapBench', 'donors', item.trim()], {
        part,
        kind,
        ...(revision.trim() === '' ? {} : { revision }),
        ...(homeLock === 'unknown' ? {} : { homeLock }),
      }),
    ),
  ];
};

/** Where the function list of a part was changed on the sheet, it is so for the next run too. */
const checklistOperations = (document: Assessment, fits: readonly FitDraft[]): readonly Operation[] => {
  const changed = fits.filter(({ addedChecks, leftOutChecks, part }) => {
    const ids = checksOf(document, part).map(({ id }) => id);
    return addedChecks.some(({ key }) => !ids.includes(key)) || leftOutChecks.some((id) => ids.includes(id));
  });
  if (changed.length === 0) return [];
  const bench = document.swapBench;
  const added = changed.flatMap(({ addedChecks }) => addedChecks);
  const described = new Map(added.map(({ key, name }) => [key, name]));
  return [
    ...(bench?.checks === undefined && added.length > 0 ? [add(['swapBench', 'checks'], {})] : []),
    ...[...described]
      .filter(([key]) => bench?.checks?.[key] === undefined)
      .map(([key, name]) => add(['swapBench', 'checks', key], { name })),
    ...(bench?.parts === undefined ? [add(['swapBench', 'parts'], {})] : []),
    ...changed
      .filter(({ part }) => bench?.parts?.[part] === undefined)
      .map(({ part }) => add(['swapBench', 'parts', part], {})),
    ...changed.map((fit) =>
      add(
        ['swapBench', 'parts', fit.part, 'checks'],
        shownChecks(document, fit).map(({ id }) => id),
      ),
    ),
  ];
};

/** Which functions stand on the sheet for a fit: the list of the part, less those left out, with those added? */
export const shownChecks = (
  document: Assessment,
  { part, addedChecks, leftOutChecks }: FitDraft,
): readonly FunctionCheck[] => {
  const usual = checksOf(document, part).filter(({ id }) => !leftOutChecks.includes(id));
  const more = addedChecks.filter(({ key }) => !usual.some(({ id }) => id === key));
  return [...usual, ...more.map(({ key, name }) => ({ id: key, name }))];
};
