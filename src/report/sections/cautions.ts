import type { Caution } from '#verdict/verdict';
import { anchorOf } from '../html/anchor.ts';
import { html, type Markup, quoted } from '../html/markup.ts';
import type { ReportContext, ReportSection } from '../report-context.ts';
import { observationSentence } from './title-block.ts';

/** What can hurt somebody on these routes, with figure and source? Stands before the routes. */
export function cautionsSection(context: ReportContext): ReportSection {
  const { cautions } = context.verdict;
  const body =
    cautions.length === 0
      ? html`<p>The record shows no action that combines a hazard. That is no statement that there is none.</p>`
      : html`${cautions.map(
          (caution) =>
            html`<div class="warn" id="${cautionAnchor(caution)}">${cautionWords(caution)}<p class="soft">Applies at: ${placesOf(caution, context)}.</p></div>`,
        )}`;
  return {
    id: 'cautions',
    title: 'Cautions before the routes',
    body: html`${body}<p>${observationSentence} The routes below are a record of what was done, not instructions.</p>`,
  };
}

/** How does a caution read? Its title, what to heed with the figure, and the source. */
function cautionWords({ title, text, source }: Caution): Markup {
  return html`<p><strong>${quoted(title)}.</strong> ${quoted(text)} <span class="soft">Source: ${quoted(source)}.</span></p>`;
}

/** How is a caution called to mind where it applies? By its title, with a link to its words, which stand once before the routes. */
export function cautionReference(caution: Caution): Markup {
  return html`<p><strong>${quoted(caution.title)}.</strong> <a href="#${cautionAnchor(caution)}">In full before the routes.</a></p>`;
}

function cautionAnchor({ id }: Caution): string {
  return anchorOf('caution', id);
}

function placesOf({ where }: Caution, context: ReportContext): Markup {
  return html`${where.map((id, index) => html`${index > 0 ? ', ' : ''}${quoted(context.anyName(id))}`)}`;
}
