import { EFFECT_WORDS } from '#swaps/diagnosis/effect-words';
import type { EffectCell, EffectTable } from '#swaps/lineage/effect-table';
import { cellHead, cellLines, codesIn } from '#swaps/lineage/lineage-words';
import { html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';

/** Which effects did the parts show on which firmware? A row a part, a column a version, runs counted in every cell. */
export function effectTableMarkup(table: EffectTable, nameOf: (part: string) => string): Markup {
  const columns = table.firmware.map((version) =>
    version === undefined ? 'firmware not recorded' : `firmware ${version}`,
  );
  return wideTable({
    caption: 'Effects of foreign parts by part and firmware, with the runs counted',
    head: headRow(['part', ...columns]),
    body: html`<tbody>${table.rows.map(
      ({ part, cells }) => html`<tr><th scope="row">${quoted(nameOf(part))}</th>${cells.map(cellMarkup)}</tr>`,
    )}</tbody>`,
  });
}

/** What does each code of the scale mean? Only those that a table shows. */
export function scaleMarkup(table: EffectTable): Markup {
  const codes = codesIn(table);
  return html`<p class="small">${codes.map(
    (code, index) => html`${index > 0 ? '; ' : ''}${code}: a foreign part ${EFFECT_WORDS[code]}`,
  )}${codes.length === 0 ? 'No run tells what a foreign part does' : ''}.</p>`;
}

function cellMarkup(cell: EffectCell): Markup {
  return html`<td>${cellHead(cell)}${cellLines(cell).map((line) => html` <span class="width">${quoted(line)}</span>`)}</td>`;
}
