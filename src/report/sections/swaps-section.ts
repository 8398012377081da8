import { html, quoted } from '../html/markup.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';
import { effectTableMarkup, scaleMarkup } from '../swaps/effect-cells.ts';
import { swapAnchor, swapArticle } from '../swaps/swap-article.ts';

/**
 * What does the software make of foreign parts? The table of effects by part and firmware, then part after part the verdict at the
 * level tested, what stands and what is excluded by which runs, the lineage and what is left open.
 */
export function swapsSection(context: ReportContext): ReportSection {
  const { swaps } = context.verdict;
  if (swaps === undefined)
    return {
      id: 'swaps',
      title: 'Swaps',
      body: html`<p>No part was swapped: what the software makes of foreign parts is not known.</p>`,
    };
  const names = new Map(swaps.parts.map(({ part, name }) => [part, name]));
  const body = html`<p>Observations from the record, not legal advice. A foreign part is one that did not come with the specimen it was fitted into; a refit control is the own part taken out and put back. An effect is told apart from its cause; one explanation of a part at a time is considered.</p>
${effectTableMarkup(swaps.table, (part) => names.get(part) ?? part)}
${scaleMarkup(swaps.table)}
<p class="small soft">To recompute: B(q; a, b) is the q quantile of the beta distribution with parameters a and b; the lower end is 0 where x is 0, the upper end 1 where x is n. The exact test is over the two by two table of controls and foreign fits, without and with effect: its tables have hypergeometric weights. Counts and runs stand below each figure; which explanation a run contradicts is the table of docs/method/swap-diagnosis.md.</p>
${swaps.problems.length === 0 ? undefined : html`<p>Of the fits on record:</p><ul>${swaps.problems.map(({ what, address }) => html`<li>${quoted(what)} <span class="soft">(${quoted(address)})</span></li>`)}</ul>`}
${swaps.parts.map((swap) => swapArticle(swap, swaps, context))}`;
  return {
    id: 'swaps',
    title: 'Swaps',
    body,
    below: swaps.parts.map(({ part, name }) => ({ id: swapAnchor(part), title: name })),
  };
}
