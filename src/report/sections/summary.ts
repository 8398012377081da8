import { sentence } from '#quantity/counts';
import type { BasisVerdict, PartVerdict } from '#verdict/verdict';
import { depthWords } from '../depth/depth-model.ts';
import { type Content, html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import { partAnchor, priorityParts, type ReportContext, type ReportSection } from '../report-context.ts';
import { basisMeaning, basisWords, routeTimeWords } from '../words/terms.ts';
import { letterWords, widthWords } from './verdict-words.ts';

/** What came out, on one page? The verdict a basis, and for each priority part the way to it. */
export function summarySection(context: ReportContext): ReportSection {
  const { verdict } = context;
  return {
    id: 'summary',
    title: 'In short',
    body: html`${scopeParagraph(context)}${verdict.bases.map((basis) => basisParagraph(basis, context))}
${routesTable(context)}`,
  };
}

function scopeParagraph({ verdict }: ReportContext): Markup | undefined {
  if (verdict.scope.inScope) return undefined;
  return html`<p><strong>Outside the scheme.</strong> ${quoted(verdict.scope.outOfScope)} (${quoted(verdict.scope.article)}). No index is computed; what the record shows of routes follows all the same.</p>`;
}

function basisParagraph(basis: BasisVerdict, context: ReportContext): Markup {
  const { R } = basis.figures;
  const figure = R === null ? html`no single figure` : html`R is ${context.figure(basis.basis, ['R'], R)}`;
  return html`<p><strong>${sentence(basisWords[basis.basis])}</strong> (${basisMeaning[basis.basis]}): ${figure}, ${letterWords(basis)}.${distance(basis)} ${widthWords(basis)}</p>`;
}

function distance({ distance, figures }: BasisVerdict): Content {
  if (distance === undefined || figures.R === null) return undefined;
  const size = distance.toThreshold.replace(/^[-+−]/, '');
  const below = /^[-−]/.test(distance.toThreshold);
  return html` The nearest threshold is ${distance.threshold}, ${size} ${below ? 'above' : 'below'} it; beyond lies class ${distance.letterBeyond}.`;
}

function routesTable(context: ReportContext): Markup {
  const parts = priorityParts(context.verdict);
  if (parts.length === 0) return html`<p>The record names no priority part.</p>`;
  return wideTable({
    caption: 'The way to each priority part by the best route found',
    head: headRow(['priority part', '[steps]', 'comes off on the way, in this order', '[time]', 'shown as']),
    body: html`<tbody>${parts.map((part) => routeRow(part, context))}</tbody>`,
  });
}

function routeRow(part: PartVerdict, context: ReportContext): Markup {
  const { best } = part;
  const names = (part.blocking ?? []).map((id) => quoted(context.partName(id)));
  const way =
    names.length === 0 ? html`nothing` : html`${names.map((name, index) => html`${index > 0 ? ', ' : ''}${name}`)}`;
  return html`<tr><th scope="row"><a href="#${partAnchor(part.part)}">${quoted(part.name)}</a></th><td class="n">${depthWords(part)}</td><td>${
    best === undefined ? 'no route is shown' : way
  }</td><td class="n">${best === undefined ? '–' : routeTimeWords(best)}</td><td>${best === undefined ? '–' : shortPerformed(best)}</td></tr>`;
}

function shortPerformed({ performed }: NonNullable<PartVerdict['best']>): string {
  if (performed === 'document') return 'read in a document';
  return performed === 'end-to-end' ? 'done from end to end' : 'put together';
}
