import type { EvidencePlace } from '#verdict/record-log';
import { anchorOf } from '../html/anchor.ts';
import { type Content, html, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';
import { clockText, momentText } from '../words/durations.ts';
import { observationSentence } from './title-block.ts';

/** What does the public sheet force, and which of it does a count at the bench refute? */
export function sheetSection({ verdict }: ReportContext): ReportSection {
  const { sheet } = verdict;
  const list = (texts: readonly string[]) => html`<ul>${texts.map((text) => html`<li>${quoted(text)}</li>`)}</ul>`;
  const body =
    sheet === undefined
      ? html`<p>No public sheet is on record.</p>`
      : html`<h3>What its scores force</h3>${sheet.consequences.length > 0 ? list(sheet.consequences) : html`<p>Nothing beyond themselves.</p>`}
<h3>Refuted by a count</h3>${sheet.refuted.length > 0 ? list(sheet.refuted) : html`<p>Nothing.</p>`}
<h3>Surveillance check</h3><p>${sheet.surveillance === undefined ? 'Not possible: a declared or a determined R is missing.' : quoted(sheet.surveillance)}</p>`;
  return { id: 'sheet', title: 'The public sheet', body };
}

/** What was damaged on the way? */
export function damageSection(context: ReportContext): ReportSection {
  const { damage } = context.verdict;
  const body =
    damage.length === 0
      ? html`<p>No damage is on record.</p>`
      : wideTable({
          caption: 'Damage on record',
          slim: true,
          head: headRow(['id', 'what happened', 'evidence']),
          body: html`<tbody>${damage.map(
            ({ id, text, evidence }) =>
              html`<tr><th scope="row">${quoted(id)}</th><td>${quoted(text)}</td><td>${evidence.length > 0 ? context.evidence(evidence) : 'none'}</td></tr>`,
          )}</tbody>`,
        });
  return { id: 'damage', title: 'Damage', body: html`${body}` };
}

/** What in the log does not fit? */
export function remarksSection({ verdict }: ReportContext): ReportSection {
  const body =
    verdict.remarks.length === 0
      ? html`<p>The replay of the log found nothing that does not fit.</p>`
      : html`<ul>${verdict.remarks.map(({ path, text }) => html`<li>${quoted(text)} <span class="soft">(${quoted(path)})</span></li>`)}</ul>`;
  return { id: 'remarks', title: 'What in the log does not fit', body };
}

/** Which evidence does the verdict rest on, and how can a stranger check that it is the same? */
export function evidenceSection({ verdict, log }: ReportContext): ReportSection {
  const body =
    verdict.evidence.length === 0
      ? html`<p>No evidence is on record.</p>`
      : wideTable({
          caption: 'Evidence, with the SHA-256 of each file',
          head: headRow(['id', 'kind', 'what it shows', 'SHA-256']),
          body: html`<tbody>${verdict.evidence.map(
            ({ id, kind, says, sha256 }) =>
              html`<tr id="${anchorOf('evidence', id)}"><th scope="row">${quoted(id)}</th><td>${quoted(kind)}</td><td>${quoted(says)}${placeMarkup(log?.evidence[id])}</td><td class="digest">${sha256 === undefined ? 'no file' : quoted(sha256)}</td></tr>`,
          )}</tbody>`,
        });
  return { id: 'evidence', title: 'Evidence', body: html`${body}` };
}

/** Where is it kept, and which moment of which session does it show? */
function placeMarkup(place: EvidencePlace | undefined): Content {
  const { file, taken, session, at, source } = place ?? {};
  const words = [
    file === undefined ? [] : [`evidence/${file}`],
    taken === undefined ? [] : [`taken ${momentText(taken)}`],
    session === undefined ? [] : [`session ${session}${at === undefined ? '' : ` at ${clockText(at)}`}`],
    source === undefined ? [] : [source],
  ].flat();
  return words.length === 0 ? undefined : html`<span class="width">${quoted(words.join('; '))}</span>`;
}

/** Which texts and tables does the verdict rest on? */
export function sourcesSection({ verdict }: ReportContext): ReportSection {
  const list =
    verdict.sources.length === 0
      ? html`<p>No source is named in the record.</p>`
      : html`<ul>${verdict.sources.map(({ id, text }) => html`<li>${quoted(id)}: ${quoted(text)}</li>`)}</ul>`;
  return {
    id: 'sources',
    title: 'Sources',
    body: html`${list}<p>${observationSentence}</p><p class="small soft">Set in Atkinson Hyperlegible, copyright 2020 Braille Institute of America, Inc., under the SIL Open Font License 1.1.</p>`,
  };
}
