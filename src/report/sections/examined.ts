import { counted, listed } from '#quantity/counts';
import { html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';
import { durationText, momentText } from '../words/durations.ts';

/** What was examined: which specimens, in which sessions, by whom, and how much of it is on record? */
export function examinedSection({ verdict }: ReportContext): ReportSection {
  const { specimens, sessions, counts, untried = [] } = verdict.examined;
  const record = listed([
    counted(counts.parts, 'part'),
    `${counted(counts.fasteners, 'fastener')} (${counted(counts.pieces, 'piece')})`,
    counted(counts.entries, 'log entry', 'log entries'),
    counted(counts.trials, 'trial'),
  ]);
  return {
    id: 'examined',
    title: 'What was examined',
    body: html`<p>The record holds ${record}. A fastener is a set of like fasteners at one place.</p>
${
  specimens.length === 0
    ? html`<p>No specimen is on record: nothing below was seen at a bench.</p>`
    : wideTable({
        caption: 'Specimens',
        slim: true,
        head: headRow(['specimen', 'what it is', 'part in this report']),
        body: html`<tbody>${specimens.map(specimenRow)}</tbody>`,
      })
}
${
  sessions.length === 0
    ? html`<p>No session is on record: there are no observed routes and no times.</p>`
    : wideTable({
        caption: 'Sessions; only measured sessions feed times and odds',
        head: headRow(['session', 'kind', 'specimen', 'operator', 'start', '[entries]', '[length]']),
        body: html`<tbody>${sessions.map(sessionRow)}</tbody>`,
      })
}${
  untried.length === 0
    ? ''
    : wideTable({
        caption: 'Not tried while it could be; it counts for neither answer',
        slim: true,
        head: headRow(['part', 'with these still in', 'session', 'note']),
        body: html`<tbody>${untried.map(untriedRow)}</tbody>`,
      })
}`,
  };
}

type Examined = ReportContext['verdict']['examined'];

function specimenRow({ id, text, reference }: Examined['specimens'][number]): Markup {
  return html`<tr><th scope="row">${quoted(id)}</th><td>${quoted(text)}</td><td>${reference ? 'reference specimen' : 'further specimen'}</td></tr>`;
}

function sessionRow(session: Examined['sessions'][number]): Markup {
  return html`<tr><th scope="row">${quoted(session.id)}</th><td>${quoted(session.kind)}</td><td>${quoted(session.specimen)}</td><td>${quoted(
    session.operator,
  )}</td><td>${quoted(momentText(session.start))}</td><td class="n">${session.entries}</td><td class="n">${durationText(session.seconds)}</td></tr>`;
}

function untriedRow({ part, stillIn, session, note }: NonNullable<Examined['untried']>[number]): Markup {
  return html`<tr><th scope="row">${quoted(part)}</th><td>${quoted(stillIn.join(', '))}</td><td>${quoted(session)}</td><td>${quoted(note ?? '')}</td></tr>`;
}
