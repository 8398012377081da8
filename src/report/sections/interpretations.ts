import { INTERPRETATION_TABLE } from '#schemes/eu-2023-1669/interpretations';
import type { InterpretationVerdict } from '#verdict/verdict';
import { html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';
import { chosenWords, readByWords, valueWords } from '../words/reading-words.ts';

/** Where does the law leave room, how was it read here, and what would another reading change? What changes something comes first. */
export function interpretationsSection({ verdict }: ReportContext): ReportSection {
  const { interpretations } = verdict;
  const withEffect = interpretations.filter(hasEffect);
  const without = interpretations.filter((interpretation) => !hasEffect(interpretation));
  const body =
    interpretations.length === 0
      ? html`<p>No interpretation bears on this verdict.</p>`
      : html`${
          verdict.readBy === undefined
            ? undefined
            : html`<p>${quoted(readByWords(verdict.readBy))}</p>
`
        }${withEffect.length > 0 ? readingsTable('Readings with an effect here', withEffect) : html`<p>No other reading would change a figure here.</p>`}
${without.length > 0 ? readingsTable('Readings and facts without an effect here', without) : undefined}
${withoutChoice()}`;
  return { id: 'interpretations', title: 'Interpretations', body };
}

/** Rows of the table of ambiguities that leave nothing to choose; so that the whole of it stands in the report. */
function withoutChoice(): Markup {
  const rows = INTERPRETATION_TABLE.filter(({ kind }) => kind === 'none');
  return html`<p>Without a choice:</p><ul>${rows.map(
    ({ row, question, clause, swing }) =>
      html`<li>${question} <span class="width">row ${row}, ${clause}</span>: ${swing}.</li>`,
  )}</ul>`;
}

function hasEffect({ others }: InterpretationVerdict): boolean {
  return others.some(({ effect, changesLetter }) => changesLetter || !/^(?:nothing|none)\b/i.test(effect));
}

function readingsTable(caption: string, interpretations: readonly InterpretationVerdict[]): Markup {
  return html`<div class="readings">${wideTable({
    caption,
    head: headRow(['question', 'as read', 'other reading', 'effect here']),
    body: interpretations.map(interpretationRows),
  })}</div>`;
}

function interpretationRows(interpretation: InterpretationVerdict): Markup {
  const { others } = interpretation;
  const span = Math.max(1, others.length);
  const [first, ...rest] = others;
  return html`<tbody><tr><th scope="row" rowspan="${span}">${quoted(interpretation.question)} <span class="width">row ${quoted(
    interpretation.row,
  )}, ${quoted(interpretation.id)}</span></th><td rowspan="${span}">${quoted(valueWords(interpretation.value))} <span class="width">${quoted(chosenWords(interpretation))}</span></td>${
    first === undefined ? html`<td colspan="2">a fact to establish, not a reading to choose</td>` : otherCells(first)
  }</tr>${rest.map((other) => html`<tr>${otherCells(other)}</tr>`)}</tbody>`;
}

function otherCells({ value, effect, changesLetter }: InterpretationVerdict['others'][number]): Markup {
  const letter = changesLetter ? html` <span class="needs">Another letter.</span>` : undefined;
  const effects = effect.split('; ').map((basis) => html`<p>${quoted(basis)}</p>`);
  return html`<td>${quoted(valueWords(value))}</td><td>${effects}${letter}</td>`;
}
