import type { InterpretationVerdict } from '#verdict/verdict';
import { html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';

/** Where does the law leave room, how was it read here, and what would another reading change? */
export function interpretationsSection({ verdict }: ReportContext): ReportSection {
  const body =
    verdict.interpretations.length === 0
      ? html`<p>No interpretation bears on this verdict.</p>`
      : wideTable({
          caption: 'Interpretations with their effect here',
          head: headRow(['question', 'as read', 'other reading', 'effect here']),
          body: verdict.interpretations.map(interpretationRows),
        });
  return { id: 'interpretations', title: 'Interpretations', body: html`${body}` };
}

function interpretationRows(interpretation: InterpretationVerdict): Markup {
  const { others } = interpretation;
  const span = Math.max(1, others.length);
  const [first, ...rest] = others;
  return html`<tbody><tr><th scope="row" rowspan="${span}">${quoted(interpretation.question)} <span class="width">row ${quoted(
    interpretation.row,
  )}, ${quoted(interpretation.id)}</span></th><td rowspan="${span}">${quoted(interpretation.value)} <span class="width">${chosen(interpretation)}</span></td>${
    first === undefined ? html`<td>none</td><td>none</td>` : otherCells(first)
  }</tr>${rest.map((other) => html`<tr>${otherCells(other)}</tr>`)}</tbody>`;
}

function chosen({ isDefault, kind, reason }: InterpretationVerdict): Markup {
  const how =
    kind === 'fact'
      ? isDefault
        ? 'a fact, until shown otherwise'
        : 'a fact, as established'
      : isDefault
        ? 'our default'
        : 'chosen here';
  return reason === undefined ? html`${how}` : html`${how}: ${quoted(reason)}`;
}

function otherCells({ value, effect, changesLetter }: InterpretationVerdict['others'][number]): Markup {
  const letter = changesLetter ? html` <span class="needs">Another letter.</span>` : undefined;
  return html`<td>${quoted(value)}</td><td>${quoted(effect)}${letter}</td>`;
}
