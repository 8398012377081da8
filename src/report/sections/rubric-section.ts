import { roundedText } from '#verdict/rubric/exact-text';
import type { CapScore, CriterionScore, RubricScore } from '#verdict/rubric/score/rubric-score';
import { html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import type { ReportSection } from '../report-context.ts';
import { treeMarkup } from '../rubric/tree-markup.ts';

/** What does the house rubric say, how sure is it, what went into it, and what is missing? */
export function rubricSection(score: RubricScore): ReportSection {
  const { rubric } = score;
  const applying = score.criteria.filter(({ applies }) => applies !== 'no');
  const others = score.criteria.filter(({ applies }) => applies === 'no');
  return {
    id: 'rubric',
    title: 'House rubric',
    body: html`<p>${quoted(rubric.title)}, edition ${rubric.edition} of ${rubric.date}, by ${quoted(rubric.author)}${rubric.invented ? ' (invented)' : ''}. ${
      rubric.note === undefined ? undefined : quoted(rubric.note)
    }</p>
<p>${scoreWords(score)}</p>
${applying.length === 0 ? undefined : criteriaTable(applying)}
${others.length === 0 ? undefined : html`<p class="small soft">Does not apply to this product and drops out with its weight: ${others.map(({ title }, index) => html`${index > 0 ? '; ' : ''}${quoted(title)}`)}.</p>`}
${score.caps.length === 0 ? undefined : capsList(score.caps)}
${missingList(score)}
<h3>Why the score is what it is</h3>
<div class="walk">${treeMarkup(score.tree)}</div>`,
  };
}

/** The score in a sentence: never a number alone, always of 100 and with what is still possible. */
function scoreWords({ state, shown, mayBeNone }: RubricScore): string {
  if (state === 'none' || shown === undefined) return 'No criterion of the rubric applies to this product.';
  const none = mayBeNone ? ' It may also turn out that no criterion applies.' : '';
  if (shown.low === shown.high && state === 'settled')
    return `The score is ${shown.low} of 100, settled: no open fact moves it.`;
  return `The score lies between ${shown.low} and ${shown.high} of 100, whatever the open facts turn out to be.${none}`;
}

function criteriaTable(criteria: readonly CriterionScore[]): Markup {
  return wideTable({
    caption: 'Criteria of the house rubric',
    head: headRow(['criterion', 'value', '[points]', '[weight]', '[adds at the low end]', '[adds at the high end]']),
    body: html`<tbody>${criteria.map(criterionRow)}</tbody>`,
  });
}

function criterionRow(criterion: CriterionScore): Markup {
  const { title, metric, valueText, points, weight, applies, value, atLow, atHigh } = criterion;
  const open = applies === 'open' ? html`<span class="width">whether it applies is open</span>` : undefined;
  return html`<tr><th scope="row">${quoted(title)} <span class="width">${quoted(metric)}</span>${open}</th><td>${quoted(valueText)}${
    value.note === undefined ? undefined : html`<span class="width">${quoted(value.note)}</span>`
  }</td><td class="n">${points === undefined ? '' : span(points.low, points.high)}</td><td class="n">${weight}</td><td class="n">${
    atLow === undefined ? 'drops out' : roundedText(atLow.contribution, 2)
  }</td><td class="n">${atHigh === undefined ? 'drops out' : roundedText(atHigh.contribution, 2)}</td></tr>`;
}

function span(low: string, high: string): string {
  return low === high ? roundedText(low, 1) : `${roundedText(low, 1)} to ${roundedText(high, 1)}`;
}

const CAP_WORDS = { yes: 'holds', no: 'does not hold', open: 'is open' } as const;

function capsList(caps: readonly CapScore[]): Markup {
  return html`<h3>Caps</h3><ul>${caps.map(
    ({ title, atMost, holds, applies, valueText }) =>
      html`<li>${quoted(title)}: at most ${atMost}. ${
        applies === 'no' ? 'Does not apply to this product.' : html`It ${CAP_WORDS[holds]} (${quoted(valueText)}).`
      }</li>`,
  )}</ul>`;
}

function missingList({ missing }: RubricScore): Markup | undefined {
  if (missing.length === 0) return undefined;
  return html`<h3>What is missing for it</h3><ul>${missing.map(
    ({ what, remedy, address }) =>
      html`<li>${quoted(what)}. To settle it: ${quoted(remedy)} <span class="soft">(${quoted(address)})</span></li>`,
  )}</ul>`;
}
