import type { NamedRubric, PlacedItem, Rescoring } from '#verdict/rescore/rescoring';
import { FACTORS } from '#verdict/rescore/split-change';
import { html, type Markup, quoted } from '../html/markup.ts';
import { pageText } from '../html/page.ts';
import { headRow, wideTable } from '../html/table.ts';
import { reportStyle } from '../look/style.ts';
import type { ReportTools } from '../render-report.ts';
import { observationSentence } from '../sections/title-block.ts';
import { placeText, scoreText, signedText, splitText } from './rescoring-words.ts';

/** How does a rescoring read as a page? One self-contained HTML file like the report: no script, no request. Same data, same bytes. */
export function renderRescoringPage(rescoring: Rescoring, tools: ReportTools): string {
  const content = [reading(rescoring), changes(rescoring), failures(rescoring), oneSided(rescoring)];
  const page = { title: TITLE, style: reportStyle(TITLE), above: head(rescoring), content };
  return pageText(page, tools.sha256Base64);
}

const TITLE = 'Scores computed again';

function head({ before, after, readBy, method, items, failed }: Rescoring): Markup {
  const invented = before.invented || after.invented;
  return html`<header class="title"><div class="what"><h1>${TITLE}</h1>
<p>Assessor's determination by a house rubric.</p>
${invented ? html`<p><strong>Invented rubric.</strong> A house, its weights and its scales in it were made up to show the method.</p>` : undefined}
<p class="small">${observationSentence}</p></div>
<div class="cells"><dl>
<div><dt>before</dt><dd>${rubricName(before)}</dd></div>
<div><dt>after</dt><dd>${rubricName(after)}</dd></div>
<div><dt>method</dt><dd>${method}</dd></div>${
    readBy === undefined
      ? undefined
      : html`
<div><dt>readings</dt><dd>of the laboratory ${quoted(readBy.name)}, edition ${readBy.edition}, where a record chooses none</dd></div>`
  }
<div><dt>records scored</dt><dd>${items.length}</dd></div>
<div><dt>not scored</dt><dd>${failed.length}</dd></div>
<div><dt>same rubric</dt><dd>${before.digest === after.digest ? 'yes' : 'no'}</dd></div>
<div class="whole"><dt>digests of the rubrics, SHA-256</dt><dd class="digest">${before.digest}; ${after.digest}</dd></div></dl></div></header>`;
}

function rubricName({ title, edition, date, author }: NamedRubric): Markup {
  return html`${quoted(title)}, edition ${edition} of ${date}, by ${quoted(author)}`;
}

function reading({ twoArchives }: Rescoring): Markup {
  return html`<section aria-labelledby="reading"><h2 id="reading">1 How to read this</h2>
<ul>
<li>A score lies between 0 and 100. Two numbers are the lowest and the highest that facts still open allow; where between them it lies is open.</li>
<li>A place counts from the highest score among the records of this page only. Two numbers are the best and the worst place, whichever way the open facts turn out. Places that overlap do not say which record is ahead.</li>
<li>The change of a score is split among <em>weights</em>, <em>scales</em> (points for a value, and caps), <em>metrics</em> (what is looked at, and for which products) and <em>facts</em>. The parts add up to the change exactly; shown with two decimals, they may seem to miss by a hundredth. Each part is the average over every order in which the four can be taken from old to new.</li>
<li>${twoArchives ? 'Facts before are those of the first archive, facts after those of the second.' : 'Both scores rest on the same facts; their part is 0.'}</li>
</ul></section>
`;
}

function changes({ items }: Rescoring): Markup {
  if (items.length === 0)
    return html`<section aria-labelledby="changes"><h2 id="changes">2 Changes</h2><p>No record was scored.</p></section>
`;
  return html`<section aria-labelledby="changes"><h2 id="changes">2 Changes</h2>
${wideTable({
  caption:
    'Score and place before and after, and the parts of the change [points of 100]; two lines where the ends changed differently',
  head: headRow([
    'record',
    '[score before]',
    '[score after]',
    '[place before]',
    '[place after]',
    '[change]',
    ...FACTORS.map((factor) => `[${factor}]`),
  ]),
  body: html`<tbody>${Array.from(items, row)}</tbody>`,
})}</section>
`;
}

function row(item: PlacedItem): Markup {
  const { before, after, placeBefore, placeAfter, low, high } = item;
  const cell = (name: 'change' | (typeof FACTORS)[number]): Markup | undefined => {
    if (!low || !high) return undefined;
    const [least, most] = [signedText(low[name]), signedText(high[name])];
    return least === most
      ? html`${least}`
      : html`${least}<span class="width">lowest end</span>${most}<span class="width">highest end</span>`;
  };
  const unsplit = low && high ? undefined : html`<p class="small soft">${splitText(item)}</p>`;
  return html`<tr><th scope="row">${quoted(item.product)}<span class="width">${quoted(item.item)}</span>${unsplit}</th>
<td class="n">${scoreText(before)}</td><td class="n">${scoreText(after)}</td>
<td class="n">${placeText(placeBefore)}</td><td class="n">${placeText(placeAfter)}</td>
<td class="n">${cell('change')}</td>${FACTORS.map((factor) => html`<td class="n">${cell(factor)}</td>`)}</tr>
`;
}

function failures({ failed }: Rescoring): Markup | undefined {
  if (failed.length === 0) return undefined;
  return html`<section aria-labelledby="failed"><h2 id="failed">3 Not scored</h2>
${wideTable({
  caption: 'Records with problems; they stand in no place',
  head: headRow(['record', 'where', 'what is wrong', 'what to do']),
  body: html`<tbody>${failed.map(
    ({ item, where, message, remedy }) =>
      html`<tr><th scope="row">${quoted(item)}</th><td>${quoted(where)}</td><td>${quoted(message)}</td><td>${quoted(remedy)}</td></tr>
`,
  )}</tbody>`,
})}</section>
`;
}

function oneSided({ onlyBefore, onlyAfter }: Rescoring): Markup | undefined {
  if (onlyBefore.length + onlyAfter.length === 0) return undefined;
  const list = (title: string, items: readonly string[]): Markup | undefined =>
    items.length === 0
      ? undefined
      : html`<p>${title}</p><ul>${items.map((item) => html`<li>${quoted(item)}</li>`)}</ul>`;
  return html`<section aria-labelledby="one-sided"><h2 id="one-sided">Records of one archive only</h2>
${list('Only in the first archive, not scored again:', onlyBefore)}${list('Only in the second archive, without a score before:', onlyAfter)}</section>
`;
}
