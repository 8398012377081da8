import { type Explained, showFigure, showWithUnit } from '#quantity/explained';
import { html, type Markup, quoted } from '../html/markup.ts';

/**
 * How does the explanation of a house score read? The tree as it came from the engine, folded, the score itself open. Its
 * evidence is named by id; nothing is computed here.
 */
export function treeMarkup(node: Explained, level = 0): Markup {
  return html`<details${level === 0 ? html` open` : undefined}><summary>${quoted(node.label)}: <span class="value">${quoted(showWithUnit(node))}</span></summary>
<div class="in">
<p>${quoted(node.rule.formula)} <span class="soft">(${quoted(node.rule.clause)})</span></p>
${inputsMarkup(node)}
${node.missing.map((fact) => html`<p><span class="needs">Missing:</span> ${quoted(fact.what)}. To settle it: ${quoted(fact.remedy)} <span class="soft">(${quoted(fact.address)})</span></p>`)}
${node.children.map((child) => treeMarkup(child, level + 1))}
</div></details>`;
}

function inputsMarkup({ inputs }: Explained): Markup | undefined {
  if (inputs.length === 0) return undefined;
  return html`<ul class="small">${inputs.map(
    ({ label, value, address, evidence }) =>
      html`<li>${quoted(label)}: ${quoted(showFigure(value))} <span class="soft">(${quoted(address)}${evidence.length > 0 ? html`; evidence ${quoted(evidence.join(', '))}` : undefined})</span></li>`,
  )}</ul>`;
}
