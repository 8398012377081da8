import { type Explained, type FigureInput, showFigure, showWithUnit } from '#quantity/explained';
import { indexClasses } from '#schemes/eu-2023-1669/evaluate-index';
import type { Basis } from '#verdict/verdict';
import { html, type Markup, quoted } from '../html/markup.ts';
import { entryAnchor, type ReportContext, type ReportSection } from '../report-context.ts';
import { clockText } from '../words/durations.ts';
import { basisWords } from '../words/terms.ts';
import { walkAnchor } from './figure-links.ts';

/**
 * Why is every figure what it is? The explanation trees as they came from the engine, folded; a link from any figure opens
 * its node. Nothing is computed here.
 */
export function walkBackSection(context: ReportContext): ReportSection {
  const bases = context.verdict.bases;
  const body =
    bases.length === 0
      ? html`<p>There is no figure to explain.</p>`
      : html`<p>Each line holds a figure, the rule that made it, the clause of the rule, the facts that went in with their evidence, and what is missing. Open a line to see the figures it was made of; a figure anywhere above leads to its line here.</p>
${bases.map(
  ({ basis, tree }) => html`<h3 id="walk-${basis}">On the basis ${basisWords[basis]}</h3>
<div class="walk">${nodeMarkup(tree, { context, basis, path: [] })}${indexClasses(tree).map((one) => nodeMarkup(one, { context, basis, path: [one.id] }))}</div>`,
)}`;
  return { id: 'walk-back', title: 'Every figure, back to its clause', body };
}

/** R stands open, so that the six scores are in sight. */
const unfoldedLevels = 1;

interface Place {
  readonly context: ReportContext;
  readonly basis: Basis;
  readonly path: readonly string[];
}

function nodeMarkup(node: Explained, place: Place): Markup {
  const { context } = place;
  const open = place.path.length < unfoldedLevels ? html` open` : undefined;
  return html`<details${open}><summary>${quoted(node.label)}: <span class="value">${quoted(showWithUnit(node))}</span></summary>
<div class="in" id="${walkAnchor(place.basis, place.path)}">
${node.value.kind === 'not-scorable' ? html`<p>Not scorable: ${quoted(node.value.why)}.</p>` : undefined}
<p>${quoted(node.rule.formula)} <span class="soft">(${quoted(node.rule.clause)}; rule ${quoted(node.rule.id)})</span></p>
${inputsMarkup(node.inputs, context)}
${node.missing.map((fact) => html`<p><span class="needs">Missing:</span> ${quoted(fact.what)}. To settle it: ${quoted(fact.remedy)} <span class="soft">(${quoted(fact.address)})</span></p>`)}
${node.children.map((child) => nodeMarkup(child, { ...place, path: [...place.path, child.id] }))}
</div></details>`;
}

function inputsMarkup(inputs: readonly FigureInput[], context: ReportContext): Markup | undefined {
  if (inputs.length === 0) return undefined;
  return html`<ul class="small">${inputs.map(
    (input) =>
      html`<li>${quoted(input.label)}: ${quoted(showFigure(input.value))} <span class="soft">(${addressMarkup(input.address, context)}${
        input.evidence.length > 0 ? html`; evidence ${context.evidence(input.evidence)}` : undefined
      })</span></li>`,
  )}</ul>`;
}

/** An address; that of a log entry leads to its line in the log, with the time it was entered at. */
function addressMarkup(address: string, { log }: ReportContext): Markup {
  const [, session = '', id = ''] = /^work\/sessions\/([^/]+)\/entries\/([^/]+)$/.exec(address) ?? [];
  const written = log?.sessions.find((one) => one.id === session)?.entries.find((one) => one.id === id);
  if (written === undefined) return quoted(address);
  return html`<a href="#${entryAnchor(session, id)}">${quoted(address)}</a> at ${clockText(written.at)}`;
}
