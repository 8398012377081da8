import { sentence } from '#quantity/counts';
import type { Verdict } from '#verdict/verdict';
import { html, type Markup, quoted } from '../html/markup.ts';
import type { ReportContext } from '../report-context.ts';

/** What the report never leaves out: findings about law are observations, and people on the spot come first. */
export const observationSentence =
  'Findings about law in this report are observations and never advice. Local rules and licensed practice come first, at the bench and everywhere else.';

/** Whose determination is this, of what, by which method? The block at the head, as on a drawing sheet. */
export function titleBlock({ verdict }: ReportContext): Markup {
  const { product } = verdict;
  return html`<header class="title"><div class="what"><h1>${sentence(verdict.heading)}</h1>
<p>${quoted(product.name)}${product.category === undefined ? undefined : html`, ${quoted(product.category)}`}${
    product.maker === undefined ? undefined : html`, made by ${quoted(product.maker)}`
  }</p>
${product.invented ? html`<p><strong>Invented data.</strong> Product, maker, laboratory and every fact in this report were made up to show the method.</p>` : undefined}
<p class="small">${observationSentence}</p></div>
<div class="cells"><dl>${cells(verdict)}
<div class="whole"><dt>digest of the record, SHA-256</dt><dd class="digest">${quoted(verdict.recordDigest)}</dd></div></dl></div></header>`;
}

function cells(verdict: ReportContext['verdict']): readonly Markup[] {
  const entries: readonly (readonly [string, string])[] = [
    ['scheme', verdict.scheme],
    ['text of the law', `consolidated ${verdict.consolidated}`],
    ['method', verdict.method],
    ['laboratory', verdict.laboratory ?? 'not named in the record'],
    ['product released', verdict.product.released ?? 'not known'],
    ['scope', scopeWords(verdict.scope)],
  ];
  return entries.map(([term, words]) => html`<div><dt>${term}</dt><dd>${quoted(words)}</dd></div>`);
}

const scopeWords = (scope: Verdict['scope']): string => {
  if (scope.inScope === true) return 'within the scheme';
  if (scope.inScope === false) return `outside: ${scope.article}`;
  return `open: ${scope.missing.map(({ what }) => what).join('; ')}`;
};
