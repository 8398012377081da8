import { type FitDraft, newFit, newRun, type RunDraft } from './run-draft.ts';

type Fields = Readonly<Record<string, unknown>>;

const isMap = (value: unknown): value is Fields => typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * What of runs kept earlier can go on the sheet? Of each run with a number and a specimen every field that is of its sort, the others
 * as on a new sheet: another version of this page, or a hand, may have written them.
 */
export const restoredDrafts = (kept: unknown): readonly RunDraft[] =>
  (Array.isArray(kept) ? kept : []).flatMap((run: unknown) => {
    if (!isMap(run) || typeof run.run !== 'number' || typeof run.host !== 'string') return [];
    const fits = listOf(run.fits).flatMap(restoredFit);
    return [{ ...filled(newRun(run.run, run.host), run), evidence: textsOf(run.evidence), fits }];
  });

const restoredFit = (fit: unknown): readonly FitDraft[] => {
  if (!isMap(fit) || typeof fit.part !== 'string') return [];
  const { stays, corrects } = fit;
  return [
    {
      ...filled(newFit(fit.part), fit),
      checks: isMap(fit.checks) ? (fit.checks as FitDraft['checks']) : {},
      addedChecks: listOf(fit.addedChecks).flatMap((item) =>
        isMap(item) ? [filled({ key: '', name: '' }, item)] : [],
      ),
      leftOutChecks: textsOf(fit.leftOutChecks),
      measured: listOf(fit.measured).flatMap((item) =>
        isMap(item) ? [filled({ of: '', before: '', after: '' }, item)] : [],
      ),
      ...(typeof stays === 'boolean' ? { stays } : {}),
      ...(typeof corrects === 'string' ? { corrects } : {}),
    },
  ];
};

/** The pattern with what is kept in its place, where both are of one sort; maps inside likewise. */
const filled = <T extends object>(pattern: T, kept: Fields): T =>
  Object.fromEntries(
    Object.entries(pattern).map(([key, value]: readonly [string, unknown]) => {
      const found = kept[key];
      if (isMap(value)) return [key, isMap(found) ? filled(value, found) : value];
      return [key, typeof found === typeof value && !Array.isArray(value) ? found : value];
    }),
  ) as T;

const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);
const textsOf = (value: unknown): readonly string[] => listOf(value).filter((item) => typeof item === 'string');
