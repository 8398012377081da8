import type { BasisVerdict } from '#verdict/verdict';
import { html, type Markup, quoted } from '../html/markup.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';
import { ruleDrawing } from '../rule/rule-drawing.ts';
import { RULE_LEGEND, ruleEnds, ruleEndWords } from '../rule/rule-ends.ts';
import { basisWords } from '../words/terms.ts';
import { letterReasons } from './letter-reasons.ts';
import { letterWords, widthWords } from './verdict-words.ts';

const drawings = [
  { id: 'rule-wide', width: 1100, shownAt: 'wide' },
  { id: 'rule-mid', width: 690, shownAt: 'mid' },
  { id: 'rule-phone', width: 352, shownAt: 'phone' },
];

/** Where does the product stand between the thresholds, and how sure is that? */
export function verdictSection(context: ReportContext): ReportSection {
  const { verdict, outlook } = context;
  const names = verdict.bases.map(({ basis }) => basis);
  // Rings and bars come with an outlook; a report without one keeps the plain ruler.
  const ends = outlook === undefined ? [] : ruleEnds(names, outlook, verdict.interpretations);
  const endsOf = ({ basis }: BasisVerdict) => ends.find((candidate) => candidate.basis === basis);
  const title = `R of ${verdict.product.name} on ${verdict.bases.length === 1 ? 'one basis' : `${verdict.bases.length} bases`}`;
  const description = verdict.bases
    .map((basis) => {
      const marks = ruleEndWords(endsOf(basis));
      const words = [basis.figures.R ?? 'no single figure', letterWords(basis), ...marks];
      return `${basisWords[basis.basis]}: ${words.join(', ')}.`;
    })
    .join(' ');
  const body = verdict.scope.inScope
    ? html`<p>The ruler runs over R from 1 to 5 with the thresholds of the classes (Regulation (EU) 2023/1669, Annex II Table 4). The dark mark is the figure as it stands${outlook === undefined ? '; hatched is anything still possible.' : `. ${RULE_LEGEND}`}</p>
<div class="drawing">${drawings.map(
        ({ id, width, shownAt }) =>
          html`<div class="${shownAt}">${ruleDrawing(verdict.bases, { id, width, title, description, ends })}</div>`,
      )}</div>
<ul>${verdict.bases.map((basis) => html`<li><strong>${basisWords[basis.basis]}</strong>: ${letterWords(basis)}. ${widthWords(basis, endsOf(basis))}</li>`)}</ul>
<h3>Why the letter is what it is</h3>${verdict.bases.map((basis) => letterReasons(basis, context))}
${notScorable(context)}`
    : html`<p>${quoted(verdict.scope.outOfScope)} (${quoted(verdict.scope.article)}). There is no verdict under this scheme.</p>`;
  return { id: 'verdict', title: 'Verdict and its width', body };
}

function notScorable({ verdict }: ReportContext): Markup {
  const found = verdict.bases.filter(({ figures }) => figures.notScorable.length > 0);
  if (found.length === 0)
    return html`<h3>Not scorable</h3><p>Nothing: every figure of every basis has its place on the scale or is open.</p>`;
  return html`<h3>Not scorable</h3><p>Below the lowest points the scheme has no value; such a thing is never turned into 0.</p>
${found.map(
  ({ basis, figures }) =>
    html`<h4>On the basis ${basisWords[basis]}</h4><ul>${figures.notScorable.map(({ what, why }) => html`<li>${quoted(what)}: ${quoted(why)}</li>`)}</ul>`,
)}`;
}
