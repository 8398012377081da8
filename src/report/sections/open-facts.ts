import { html, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';

/** What is not established, and what would settle it? */
export function openFactsSection({ verdict }: ReportContext): ReportSection {
  const body =
    verdict.open.length === 0
      ? html`<p>Nothing is open: every figure rests on established facts and the readings above.</p>`
      : wideTable({
          caption: 'Open facts and what would settle each',
          head: headRow(['not established', 'what would settle it', 'place in the record']),
          body: html`<tbody>${verdict.open.map(
            ({ what, remedy, address }) =>
              html`<tr><th scope="row">${quoted(what)}</th><td>${quoted(remedy)}</td><td class="soft">${quoted(address)}</td></tr>`,
          )}</tbody>`,
        });
  return { id: 'open', title: 'Open facts', body: html`${body}` };
}
