import type { Explained } from '#quantity/explained';
import type { Assessment } from '#record/schema/assessment';
import { explain as evaluateRule } from '#schemes/eu-2023-1669/explain';
import { decimal } from '#schemes/eu-2023-1669/figure';
import { indexFigures } from '#schemes/eu-2023-1669/index-figures';
import { clause } from '#schemes/eu-2023-1669/method';
import { publishedHundredths } from '#schemes/eu-2023-1669/public-sheet';
import { SCORES, type Score } from '#schemes/eu-2023-1669/weights';
import type { IndexBasis } from './index-bases.ts';

/**
 * What does the public product sheet alone give as the declared basis? R from the six declared sub-scores (Annex VI Table 9:
 * row 17 is calculated from the values below it), or the declared R where a sub-score is missing. No figure of a part is public.
 */
export const sheetBasis = (assessment: Assessment): IndexBasis | undefined => {
  const sheet = assessment.product.publicSheet;
  if (!sheet) return undefined;
  const scores = SCORES.flatMap((score) => declaredNode(score, sheet[score], sheet.evidence ?? []) ?? []);
  const whole = scores.length === SCORES.length;
  const tree = whole ? computedR(scores) : (declaredNode('R', sheet.R, sheet.evidence ?? []) ?? undefined);
  if (!tree) return undefined;
  return {
    basis: 'declared',
    figures: indexFigures({ ...tree, children: scores }),
    tree: whole ? tree : { ...tree, children: [] },
    mayBeNotScorable: false,
    missing: [],
  };
};

const computedR = (children: readonly Explained[]): Explained =>
  evaluateRule({
    id: 'R',
    label: 'repairability index R, from the declared sub-scores',
    rule: {
      id: 'eu/R',
      clause: clause('Annex VI Table 9 row 17; Annex IV point 5'),
      formula: '0.25 SDD + 0.15 (SF + ST + SSP + SSU + SRI)',
    },
    inputs: [],
    missing: [],
    children,
  });

const declaredNode = (
  id: Score | 'R',
  text: string | undefined,
  evidence: readonly string[],
): Explained | undefined => {
  const hundredths = text === undefined ? undefined : publishedHundredths(text);
  if (hundredths === undefined) return undefined;
  const value = id === 'R' ? decimal(hundredths * 100, 4) : decimal(hundredths, 2);
  return evaluateRule({
    id,
    label: `${id} as declared on the public sheet`,
    rule: { id: 'eu/declared-figure', clause: clause('Annex V Table 8 rows 21 to 21f'), formula: 'as declared' },
    inputs: [{ address: 'declared', label: `product/publicSheet/${id}`, value, evidence }],
    missing: [],
    children: [],
  });
};
