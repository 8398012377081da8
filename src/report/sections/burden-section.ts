import { html, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';
import { clockText } from '../words/durations.ts';

/** Which fasteners weigh on the routes to all priority parts together? Times stand there only where some are known. */
export function burdenSection({ verdict }: ReportContext): ReportSection {
  const timed = verdict.burden.some(({ seconds }) => seconds > 0);
  const body =
    verdict.burden.length === 0
      ? html`<p>No fastener is known to weigh on several routes.</p>`
      : html`<p>What the best routes to all priority parts together would save were this one fastener already released.</p>${wideTable(
          {
            caption: 'Shared burden, heaviest first',
            slim: true,
            head: headRow(['fastener', '[steps saved]', ...(timed ? ['[time saved, h:min:s]'] : [])]),
            body: html`<tbody>${verdict.burden.map(
              ({ name, fastener, steps, seconds }) =>
                html`<tr><th scope="row">${quoted(name)} <span class="soft">(${quoted(fastener)})</span></th><td class="n">${steps}</td>${timed ? html`<td class="n">${clockText(seconds)}</td>` : undefined}</tr>`,
            )}</tbody>`,
          },
        )}`;
  return { id: 'burden', title: 'Shared burden', body };
}
