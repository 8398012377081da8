import { type Content, html, type Markup } from './markup.ts';

/** A table that may be wider than a narrow screen. */
export interface WideTable {
  /** What the table holds; also the name of its scrolling region. */
  readonly caption: string;
  readonly head: Content;
  readonly body: Content;
  /** True where the table fits a narrow screen without scrolling. */
  readonly slim?: boolean;
}

/** How does a table stand on a narrow screen? In a region of its own that scrolls and takes the focus, page unmoved. */
export function wideTable({ caption, head, body, slim = false }: WideTable): Markup {
  const table = html`<table${slim ? html` class="slim"` : undefined}><caption>${caption}</caption><thead>${head}</thead>${body}</table>`;
  return html`<div class="scroll" role="region" tabindex="0" aria-label="${caption}">${table}</div>`;
}

/** How does a head line read? One `th` a column; a text in `[brackets]` is a column of figures, set flush right. */
export function headRow(columns: readonly string[]): Markup {
  return html`<tr>${columns.map((column) =>
    column.startsWith('[')
      ? html`<th scope="col" class="n">${column.slice(1, -1)}</th>`
      : html`<th scope="col">${column}</th>`,
  )}</tr>`;
}
