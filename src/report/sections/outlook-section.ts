import type { BasisOutlook, Outlook, OutlookEnd, OutlookFigure } from '#verdict/outlook/outlook';
import type { OutlookQuestion } from '#verdict/outlook/outlook-question';
import { spanWords } from '#verdict/outlook/shown-span';
import { type Content, html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import type { ReportSection } from '../report-context.ts';
import {
  boundReasonWords,
  type EffectGroup,
  effectGroups,
  endKindWords,
  narrowingWords,
  objectiveWords,
  witnessWords,
} from '../words/outlook-words.ts';
import { basisWords } from '../words/terms.ts';

/** How far can each figure still move, by which answers, and what would narrow it most? */
export function outlookSection(outlook: Outlook): ReportSection {
  const { bases, questions, rankedBy } = outlook;
  const body =
    bases.length === 0
      ? html`<p>The record holds nothing that open facts or trials could move.</p>`
      : html`<p>An end is exact where answers lead to it: put into the record, they give that very value. A bound is what no completion of the record goes beyond; the answers found come as near as its gap says; where facts are still open with them, that value may yet move.</p>
${bases.map(basisEnds)}
<h3>What to settle next</h3>${questionsTable(questions, rankedBy)}`;
  return { id: 'outlook', title: 'What can still move, and what to settle next', body };
}

function basisEnds(basis: BasisOutlook): Markup {
  const name = basisWords[basis.basis];
  const reason = boundReasonWords(basis);
  return html`<h3>Ends on the basis ${name}</h3>
${basis.conditional.map((sentence) => html`<p>${quoted(sentence)}</p>`)}
${wideTable({
  caption: `Ends of each figure on the basis ${name}, with the answers that lead to each`,
  head: headRow(['figure', '[lowest]', 'by which answers', '[highest]', 'by which answers']),
  body: html`<tbody>${basis.figures.map(figureRow)}</tbody>`,
})}
${reason === undefined ? undefined : html`<p>${quoted(reason)}</p>`}`;
}

function figureRow({ figure, low, high }: OutlookFigure): Markup {
  return html`<tr><th scope="row">${objectiveWords(figure)}</th>${endCells(low)}${endCells(high)}</tr>`;
}

function endCells(end: OutlookEnd | undefined): Markup {
  if (end === undefined) return html`<td class="n">–</td><td>no number is possible at this end</td>`;
  const letter = end.letter === undefined ? undefined : html` <span class="width">class ${end.letter}</span>`;
  const answers = witnessWords(end);
  const said: Content =
    end.witness !== undefined && answers.length === 0
      ? 'as it stands'
      : answers.map((words) => html`<p>${quoted(words)}</p>`);
  return html`<td class="n">${end.bound}${letter}</td><td>${said} <span class="width">${endKindWords(end)}</span></td>`;
}

function questionsTable(questions: readonly OutlookQuestion[], rankedBy: Outlook['rankedBy']): Markup {
  if (questions.length === 0 || rankedBy === undefined) return html`<p>No question with a list of answers is open.</p>`;
  return html`<p>Ranked on the basis ${basisWords[rankedBy]} by guaranteed narrowing of R a minute, then of steps. The minutes are assumptions.</p>
<div class="readings">${wideTable({
    caption: 'Open questions, best first, with what each answer would leave',
    head: headRow(['question', 'how it is settled', 'if the answer is', 'that leaves']),
    body: questions.map(questionRows),
  })}</div>`;
}

function questionRows(question: OutlookQuestion): Markup {
  const [first, ...rest] = effectGroups(question);
  const span = rest.length + 1;
  return html`<tbody><tr><th scope="row" rowspan="${span}">${quoted(question.asks.join(' and '))} <span class="width">${quoted(
    question.ids.join(' & '),
  )}</span></th><td rowspan="${span}">${quoted(question.remedies.join('; '))} <span class="width">about ${question.minutes} min; ${narrowingWords(
    question,
  )}</span></td>${first ? groupCells(first) : html`<td colspan="2">–</td>`}</tr>${rest.map((group) => html`<tr>${groupCells(group)}</tr>`)}</tbody>`;
}

function groupCells({ answers, leaves }: EffectGroup): Markup {
  return html`<td>${answers.map(({ says }) => html`<p>${quoted(says)}</p>`)}</td><td>${spanWords(leaves)}</td>`;
}
