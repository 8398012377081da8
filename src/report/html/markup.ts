/** A piece of finished HTML. Only `html` and `trusted` make one, so whatever else is put into a page gets escaped. */
export class Markup {
  readonly text: string;

  constructor(text: string) {
    this.text = text;
  }
}

/** What may stand in a template: finished HTML, text and numbers to escape, nothing, or a list of these. */
export type Content = Markup | string | number | undefined | readonly Content[];

const replacements: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};
const refusedCharacters = /[\p{Surrogate}\p{Noncharacter_Code_Point}]|(?![\t\n])\p{Cc}/gu;

/**
 * How does any text read inside HTML, as content or in a quoted attribute? The five special characters become references;
 * control characters, lone surrogates and noncharacters, which no document may carry, become U+FFFD.
 */
export function escapeText(text: string): string {
  return text.replace(refusedCharacters, '\ufffd').replace(/[&<>"']/g, (character) => replacements[character] ?? '');
}

/** How does content read as HTML source? Lists are joined without a separator; `undefined` is nothing. */
export function render(content: Content): string {
  if (content === undefined) return '';
  if (content instanceof Markup) return content.text;
  if (typeof content === 'string') return escapeText(content);
  if (typeof content === 'number') return escapeText(String(content));
  return content.map(render).join('');
}

/** Makes HTML from a template: its literal text is taken as it stands, every value is escaped unless it is `Markup`. */
export function html(literals: TemplateStringsArray, ...values: readonly Content[]): Markup {
  return new Markup(literals.reduce((text, literal, index) => text + render(values[index - 1]) + literal));
}

/** Makes HTML from text of our own that has no value of a record in it. */
export function trusted(text: string): Markup {
  return new Markup(text);
}

/**
 * How is text of a record set among ours? Isolated, so that its writing direction, or a direction override in it, ends
 * with it (HTML Living Standard, the bdi element).
 */
export function quoted(text: string): Markup {
  return html`<bdi>${text}</bdi>`;
}

/** How does a list read with a separator between its members? */
export function joined(contents: readonly Content[], separator: string): Markup {
  return new Markup(contents.map(render).join(escapeText(separator)));
}
