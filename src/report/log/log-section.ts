import { counted } from '#quantity/counts';
import type { Correction, LoggedEntry, LoggedSession, RecordLog } from '#verdict/record-log';
import { html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import { entryAnchor, type ReportContext, type ReportSection } from '../report-context.ts';
import { clockText } from '../words/durations.ts';
import { correctionMarks } from './correction-mark.ts';

/**
 * What was written down at the bench, entry by entry, and where does the record say two things about one action? What gave way
 * stands in its place, marked with what was read instead, by whom. A step that was counted leads to its entries here.
 */
export function logSection(log: RecordLog): (context: ReportContext) => ReportSection {
  return (context) => {
    const { sessions, corrections } = log;
    const body =
      sessions.length === 0
        ? html`<p>No session is on record.</p>`
        : html`<p>Every entry as it was written. A time is the end of the action, from the start of the session; films are tied to it by the clock card, where one was held in. ${correctionWords(corrections)}</p>
${sessions.map((session) => sessionLog(session, corrections, context))}`;
    return { id: 'log', title: 'The log', body };
  };
}

function correctionWords(corrections: readonly Correction[]): Markup {
  if (corrections.length === 0) return html`Nothing in the log or the swaps was read otherwise later.`;
  const places = corrections.map(({ of }) => of).join(', ');
  return html`A wedge marks what was read otherwise later; the later reading holds. Named is the operator of the session or run. That is so at ${counted(corrections.length, 'place')}: ${quoted(places)}.`;
}

function sessionLog(session: LoggedSession, corrections: readonly Correction[], context: ReportContext): Markup {
  const { id, operator, entries, evidence } = session;
  const films =
    evidence.length === 0 ? undefined : html`<p class="small">Of the whole session: ${context.evidence(evidence)}</p>`;
  const table = wideTable({
    caption: `Log of ${id}`,
    head: headRow(['[time]', 'entry', 'what was done', 'with', 'remark', 'evidence']),
    body: html`<tbody>${entries.map((entry) => entryRow(id, entry, { corrections, context }))}</tbody>`,
  });
  return html`<details><summary>${quoted(id)}: ${counted(entries.length, 'entry', 'entries')}, by ${quoted(operator)}</summary><div class="in">${films}${table}</div></details>`;
}

function entryRow(
  session: string,
  { id, at, words, tools, note, evidence }: LoggedEntry,
  { corrections, context }: { readonly corrections: readonly Correction[]; readonly context: ReportContext },
): Markup {
  const marks = correctionMarks(corrections, `sessions/${session}/entries/${id}`);
  const done = marks.length === 0 ? html`<p>${quoted(words)}</p>` : html`<p><s>${quoted(words)}</s></p>${marks}`;
  return html`<tr id="${entryAnchor(session, id)}"><td class="n">${clockText(at)}</td><th scope="row">${quoted(id)}</th><td>${done}</td><td>${toolWords(tools)}</td><td>${quoted(note ?? '')}</td><td>${evidence.length > 0 ? context.evidence(evidence) : ''}</td></tr>`;
}

function toolWords(tools: readonly string[] | undefined): Markup {
  if (tools === undefined) return html`not recorded`;
  return tools.length === 0 ? html`bare hands` : quoted(tools.join(', '));
}
