import type { DutyFinding } from '#schemes/duties/duty-finding';
import { DUTIES_HEADER, DUTY_MARK_WORDS, DUTY_STATE_WORDS } from '#schemes/duties/duty-words';
import { type Content, html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';

/** Which legal duties does the record show met, not met or not shown? A ledger a law; rows that do not apply stand last, short. */
export function dutiesSection(context: ReportContext): ReportSection {
  const { duties = [] } = context.verdict;
  const laws = [...new Set(duties.map(({ law }) => law))];
  const body =
    duties.length === 0
      ? html`<p>No duty was looked at.</p>`
      : html`<p>${DUTIES_HEADER} Each row says whether the text of the law was read.</p>${laws.map((law) =>
          lawLedger(
            law,
            duties.filter((duty) => duty.law === law),
            context,
          ),
        )}`;
  return { id: 'duties', title: 'Legal duties', body };
}

function lawLedger(law: string, duties: readonly DutyFinding[], context: ReportContext): Markup {
  const applying = duties.filter(({ state }) => state !== 'does-not-apply');
  const others = duties.filter(({ state }) => state === 'does-not-apply');
  const caption = `${duties[0]?.jurisdiction ?? ''}: ${law}`;
  const ledger =
    applying.length === 0
      ? undefined
      : wideTable({
          caption,
          head: headRow(['duty', 'state', 'observed', 'evidence']),
          body: html`<tbody>${applying.map((duty) => dutyRow(duty, context))}</tbody>`,
        });
  return html`${ledger ?? html`<h3>${caption}</h3>`}${others.length === 0 ? undefined : notApplying(others)}${sourceLines(duties)}`;
}

function sourceLines(duties: readonly DutyFinding[]): Markup {
  const sources = [...new Set(duties.map(({ source }) => source))];
  return html`${sources.map((source) => html`<p class="small soft">Source: ${source}.</p>`)}`;
}

function dutyRow(duty: DutyFinding, context: ReportContext): Markup {
  const { title, clause, mark, asks, notes, state, observed, missing, evidence } = duty;
  const says: Content = missing.map(({ what }) => html`<p class="soft">missing: ${quoted(what)}</p>`);
  return html`<tr><th scope="row">${title} <span class="width">${clause}; ${DUTY_MARK_WORDS[mark]}</span></th><td>${
    DUTY_STATE_WORDS[state]
  }</td><td><p>${quoted(sentence(observed))}</p><p class="soft">asks: ${asks}</p>${says}${notes.map(
    (note) => html`<p class="soft">${note}</p>`,
  )}</td><td>${evidence.length > 0 ? context.evidence(evidence) : 'none'}</td></tr>`;
}

function notApplying(duties: readonly DutyFinding[]): Markup {
  return html`<p class="small">Does not apply: ${duties.map(
    ({ title, clause, mark, observed }, index) =>
      html`${index > 0 ? '; ' : ''}${title} (${clause}; ${DUTY_MARK_WORDS[mark]}): ${quoted(observed)}`,
  )}.</p>`;
}

function sentence(text: string): string {
  return text === '' ? 'nothing on record' : text;
}
