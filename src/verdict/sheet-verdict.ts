import type { Assessment } from '#record/schema/assessment';
import type { IndexForm } from '#schemes/eu-2023-1669/index-figures';
import { PRIORITY_ROLES, type PartFinding } from '#schemes/eu-2023-1669/input';
import { type PublicSheet, publishedHundredths, sheetConsequences } from '#schemes/eu-2023-1669/public-sheet';
import { type BenchCount, refuteSheet } from '#schemes/eu-2023-1669/refute-sheet';
import { sheetStatements } from '#schemes/eu-2023-1669/sheet-words';
import { checkClass, checkR } from '#schemes/eu-2023-1669/surveillance';
import { SCORES } from '#schemes/eu-2023-1669/weights';
import type { IndexBasis } from './index-bases.ts';
import type { Verdict } from './verdict.ts';

/** What does the public sheet force, does the bench refute it, and does R pass the surveillance check? Undefined without a sheet. */
export const sheetVerdict = (assessment: Assessment, bases: readonly IndexBasis[]): Verdict['sheet'] => {
  const sheet = publicSheetOf(assessment);
  if (!sheet) return undefined;
  const consequences = sheetConsequences(sheet, assessment.product.foldable?.foldingDisplay ?? assessment.product.foldable?.hinge ?? false);
  const bench = bases.find((basis) => basis.basis === 'observed') ?? bases.find((basis) => basis.basis === 'best');
  const refuted = bench ? refuteSheet(consequences, benchCounts(bench)).map((refutation) => `${refutation.score}: ${refutation.arithmetic}`) : [];
  const surveillance = sheet.R === undefined || !bench ? undefined : surveillanceWords(sheet.R, bench.figures, bench.basis);
  const printed = sheet.class !== undefined && sheet.R !== undefined ? checkClass(sheet.class, sheet.R) : undefined;
  const classWords = printed && !printed.upheld ? [`the sheet prints class ${sheet.class}, its R gives ${printed.fromDeclared}: ${printed.consequence}`] : [];
  return { consequences: [...sheetStatements(consequences), ...classWords], refuted, ...(surveillance === undefined ? {} : { surveillance }) };
};

/** The declared figures in hundredths. */
const publicSheetOf = (assessment: Assessment): PublicSheet | undefined => {
  const sheet = assessment.product.publicSheet;
  if (!sheet) return undefined;
  const scores = Object.fromEntries(SCORES.flatMap((score) => {
    const hundredths = publishedHundredths(sheet[score] ?? '');
    return hundredths === undefined ? [] : [[score, hundredths]];
  }));
  const R = publishedHundredths(sheet.R ?? '');
  return { ...(sheet.class === undefined ? {} : { class: sheet.class }), ...(R === undefined ? {} : { R }), scores };
};

/** What did the bench count? Only what is known on that basis; of several instances the deciding one is what the sheet speaks of, so each is given. */
const benchCounts = (basis: IndexBasis): readonly BenchCount[] => {
  const input = basis.inputs?.main;
  if (!input) return [];
  return PRIORITY_ROLES.flatMap((role) => {
    const { instances } = input.parts[role];
    return instances.length === 1 ? instances.flatMap((instance) => countOf(instance) ?? []) : [];
  });
};

const countOf = (finding: PartFinding): BenchCount | undefined => {
  const steps = finding.steps.state === 'known' ? { steps: finding.steps.value } : {};
  const fastener = finding.fastener.state === 'known' ? { fastener: finding.fastener.value } : {};
  const tool = finding.tool.state === 'known' ? { tool: finding.tool.value } : {};
  const count = { role: finding.role, ...steps, ...fastener, ...tool };
  return Object.keys(count).length > 1 ? count : undefined;
};

const surveillanceWords = (declared: number, figures: IndexForm, basis: string): string => {
  if (figures.R === null) return `R on the ${basis} basis is not settled, so that the 4 % check of Annex IX Table 10 cannot be made yet`;
  const check = checkR(declared, Math.round(Number(figures.R) * 10_000));
  return `${check.passes ? 'upheld' : 'not upheld; one further unit of the same model is to be tested'}: ${check.arithmetic} (Annex IX Table 10, ${basis} basis)`;
};
