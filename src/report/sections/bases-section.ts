import { PRIORITY_ROLES, type PriorityRole } from '#schemes/eu-2023-1669/input';
import type { BasisVerdict } from '#verdict/verdict';
import { type Content, html, type Markup } from '../html/markup.ts';
import { wideTable } from '../html/table.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';
import { basisWords, NO_PARTS, roleWords, scoreWords } from '../words/terms.ts';
import { type FigureOf, figureReading } from './figure-reading.ts';

/** What does the index say on each basis, side by side, with the lowest and highest still possible? */
export function basesSection(context: ReportContext): ReportSection {
  const { bases } = context.verdict;
  const body =
    bases.length === 0
      ? html`<p>There is no figure on any basis.</p>`
      : html`${scoresTable(bases, context)}${partsTable(bases, context)}
<p class="small soft">Under a figure stands the stretch from low to high where open facts leave one. “not scorable” is below the scale, “open” depends on a fact not yet established; neither is a 0. Each figure leads to its explanation.</p>`;
  return { id: 'bases', title: 'The three bases side by side', body };
}

function scoresTable(bases: readonly BasisVerdict[], context: ReportContext): Markup {
  const row = (label: Content, cell: (basis: BasisVerdict) => Content) =>
    html`<tr><th scope="row">${label}</th>${bases.map((basis) => html`<td class="n">${cell(basis)}</td>`)}</tr>`;
  const scores = Object.keys(scoreWords) as (keyof typeof scoreWords)[];
  return wideTable({
    caption: 'Index, class and the six scores',
    slim: true,
    head: html`<tr><th scope="col">figure</th>${bases.map(({ basis }) => html`<th scope="col" class="n">${basisWords[basis]}</th>`)}</tr>`,
    body: html`<tbody>${row('R, four decimals', (basis) => valueCell(basis, context, { path: ['R'], read: ({ R }) => R }))}
${row('class from R unrounded', (basis) => valueCell(basis, context, { path: ['class-unrounded'], read: ({ classUnrounded }) => classUnrounded }))}
${row('class from R rounded to two decimals', (basis) => valueCell(basis, context, { path: ['class-rounded'], read: ({ classRounded }) => classRounded }))}
${scores.map((score) => row(`${scoreWords[score]}, ${score}`, (basis) => valueCell(basis, context, { path: [score], read: ({ scores }) => scores[score] })))}</tbody>`,
  });
}

const columns = ['steps', 'DD', 'F', 'T'] as const;
const scoreOfColumn = { steps: 'SDD', DD: 'SDD', F: 'SF', T: 'ST' } as const;

function partsTable(bases: readonly BasisVerdict[], context: ReportContext): Markup {
  const roles = PRIORITY_ROLES.filter((role) => bases.some(({ figures }) => figures.parts[role] !== undefined));
  if (roles.length === 0) return html`<p>${NO_PARTS}</p>`;
  return wideTable({
    caption: 'Priority parts: steps, and the points for depth (DD), fasteners (F) and tools (T)',
    head: html`<tr><th scope="col" rowspan="2">priority part</th>${bases.map(
      ({ basis }) => html`<th scope="colgroup" colspan="4" class="first">${basisWords[basis]}</th>`,
    )}</tr><tr>${bases.map(() => columns.map((column, index) => html`<th scope="col" class="${index === 0 ? 'n first' : 'n'}">${column}</th>`))}</tr>`,
    body: html`<tbody>${roles.map((role) => roleRow(role, bases, context))}</tbody>`,
  });
}

function roleRow(role: PriorityRole, bases: readonly BasisVerdict[], context: ReportContext): Markup {
  return html`<tr><th scope="row">${roleWords[role]}</th>${bases.map((basis) =>
    columns.map(
      (column, index) =>
        html`<td class="${index === 0 ? 'n first' : 'n'}">${valueCell(basis, context, {
          path: [scoreOfColumn[column], role],
          isCount: column === 'steps',
          read: ({ parts }) => parts[role]?.[column],
        })}</td>`,
    ),
  )}</tr>`;
}

function valueCell(basis: BasisVerdict, context: ReportContext, figure: FigureOf): Markup {
  const { shown, ends } = figureReading(basis, figure);
  return html`${context.figure(basis.basis, figure.path, shown)}${
    ends === undefined ? undefined : html`<span class="width">${ends}</span>`
  }`;
}
