import type { Assessment } from '#record/schema/assessment';
import { type Finding, type PartFinding, PRIORITY_ROLES } from '#schemes/eu-2023-1669/input';
import {
  type PublicSheet,
  publishedHundredths,
  type SheetConsequences,
  sheetConsequences,
} from '#schemes/eu-2023-1669/public-sheet';
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
  const { foldable } = assessment.product;
  const consequences = sheetConsequences(sheet, foldable?.foldingDisplay ?? foldable?.hinge);
  const bench = bases.find((basis) => basis.basis === 'observed') ?? bases.find((basis) => basis.basis === 'best');
  const refuted = bench ? refutations(consequences, bench) : [];
  const surveillance = sheet.R === undefined || !bench ? undefined : surveillanceWords(sheet.R, bench);
  const printed = sheet.class !== undefined && sheet.R !== undefined ? checkClass(sheet.class, sheet.R) : undefined;
  const classWords =
    printed && !printed.upheld
      ? [`the sheet prints class ${sheet.class}, its R gives ${printed.fromDeclared}: ${printed.consequence}`]
      : [];
  return {
    consequences: [...sheetStatements(consequences), ...classWords],
    refuted,
    ...(surveillance === undefined ? {} : { surveillance }),
  };
};

/** The declared figures in hundredths. */
const publicSheetOf = (assessment: Assessment): PublicSheet | undefined => {
  const sheet = assessment.product.publicSheet;
  if (!sheet) return undefined;
  const scores = Object.fromEntries(
    SCORES.flatMap((score) => {
      const hundredths = publishedHundredths(sheet[score] ?? '');
      return hundredths === undefined ? [] : [[score, hundredths]];
    }),
  );
  const R = publishedHundredths(sheet.R ?? '');
  return { ...(sheet.class === undefined ? {} : { class: sheet.class }), ...(R === undefined ? {} : { R }), scores };
};

/**
 * What did the bench count? Where something is open, the best end: a sheet that even that refutes is refuted whatever the
 * rest, and only as too good (`worse`). A role with several instances is left out, since the sheet speaks of the lowest.
 */
const benchCounts = (
  basis: IndexBasis,
): { readonly settled: readonly BenchCount[]; readonly atBest: readonly BenchCount[] } => {
  const input = basis.inputs?.wide;
  if (!input) return { settled: [], atBest: [] };
  const findings = PRIORITY_ROLES.flatMap((role) =>
    input.parts[role].instances.length === 1 ? input.parts[role].instances : [],
  );
  return {
    settled: findings.flatMap((finding) => countOf(finding, false) ?? []),
    atBest: findings.flatMap((finding) => countOf(finding, true) ?? []),
  };
};

const settledValue = <T>(finding: Finding<T>, atBest: boolean): T | undefined =>
  finding.state === 'known' ? finding.value : atBest && finding.state === 'open' ? finding.best : undefined;

const countOf = (finding: PartFinding, atBest: boolean): BenchCount | undefined => {
  const steps = settledValue(finding.steps, atBest);
  const fastener = settledValue(finding.fastener, atBest);
  const tool = settledValue(finding.tool, atBest);
  if (steps === undefined && fastener === undefined && tool === undefined) return undefined;
  return {
    role: finding.role,
    ...(steps === undefined ? {} : { steps }),
    ...(fastener === undefined ? {} : { fastener }),
    ...(tool === undefined ? {} : { tool }),
  };
};

/** All refutations: those by what is settled, and those that even the best end of what is open cannot escape. */
const refutations = (consequences: SheetConsequences, basis: IndexBasis): readonly string[] => {
  const { settled, atBest } = benchCounts(basis);
  const found = [
    ...refuteSheet(consequences, settled),
    ...refuteSheet(consequences, atBest).filter((refutation) => refutation.kind === 'worse'),
  ];
  return [...new Set(found.map((refutation) => `${refutation.score}: ${refutation.arithmetic} (${basis.basis})`))];
};

const surveillanceWords = (declared: number, { figures, high, basis }: IndexBasis): string => {
  const highest = figures.R === null && high?.R ? checkR(declared, Math.round(Number(high.R) * 10_000)) : undefined;
  if (highest && !highest.passes)
    return `not upheld even at the highest still possible: ${highest.arithmetic} (Annex IX Table 10, ${basis} basis)`;
  if (figures.R === null)
    return `R on the ${basis} basis is not settled, so that the 4 % check of Annex IX Table 10 cannot be made yet`;
  const check = checkR(declared, Math.round(Number(figures.R) * 10_000));
  return `${check.passes ? 'upheld' : 'not upheld; one further unit of the same model is to be tested'}: ${check.arithmetic} (Annex IX Table 10, ${basis} basis)`;
};
