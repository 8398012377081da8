import type { DutyFinding } from '#schemes/duties/duty-finding';
import { DUTIES_HEADER, DUTY_MARK_WORDS, DUTY_STATE_WORDS } from '#schemes/duties/duty-words';
import { dutyDays } from '#verdict/duties/duty-days';
import { anchorOf } from '../html/anchor.ts';
import { type Content, html, joined, type Markup, quoted } from '../html/markup.ts';
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
  const lines = [...conditionLines(duty, context), ...notes];
  const says: Content = missing.map(({ what }) => html`<p class="soft">missing: ${quoted(what)}</p>`);
  return html`<tr><th scope="row">${title} <span class="width">${clause}; ${DUTY_MARK_WORDS[mark]}</span></th><td>${
    DUTY_STATE_WORDS[state]
  }</td><td><p>${quoted(observed === '' ? 'nothing on record' : observed)}</p><p class="soft">asks: ${asks}</p>${says}${lines.map(
    (line) => html`<p class="soft">${line}</p>`,
  )}${factLinks(duty, context)}</td><td>${evidence.length > 0 ? context.evidence(evidence) : 'none'}</td></tr>`;
}

/** On which condition and from which days does it hold? */
function conditionLines({ id, condition }: DutyFinding, { product }: ReportContext): readonly string[] {
  const days = dutyDays(id, product);
  return [
    ...(condition === undefined ? [] : [`on condition: ${condition}`]),
    ...(days.length === 0 ? [] : [`holds for: ${days.join('; ')}`]),
  ];
}

/** The facts of the record it rests on; a swap run leads to its line. */
function factLinks({ facts }: DutyFinding, { verdict }: ReportContext): Content {
  if (facts.length === 0) return undefined;
  const runs = new Set(verdict.swaps?.parts.flatMap((part) => part.runs.map(({ id }) => `swaps/${id}`)));
  const links = facts.map((fact) =>
    runs.has(fact)
      ? html`<a href="#${anchorOf('swaps', fact.slice('swaps/'.length))}">${quoted(fact)}</a>`
      : quoted(fact),
  );
  return html`<p class="soft">facts: ${joined(links, ', ')}</p>`;
}

function notApplying(duties: readonly DutyFinding[]): Markup {
  return html`<p class="small">Does not apply: ${duties.map(
    ({ title, clause, mark, observed }, index) =>
      html`${index > 0 ? '; ' : ''}${title} (${clause}; ${DUTY_MARK_WORDS[mark]}): ${quoted(observed)}`,
  )}.</p>`;
}
