import { counted } from '#quantity/counts';
import type { PartVerdict } from '#verdict/verdict';
import { html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import { partAnchor, type ReportContext, type ReportSection } from '../report-context.ts';
import { depthDrawing, standsUpright } from './depth-drawing.ts';
import { depthOf, depthWords, depthZones } from './depth-model.ts';

/** Wider than the text: only where the parts of a product need it to stand side by side. */
const broad = { id: 'depth-broad', width: 1340, shownAt: 'broad' };
const drawings = [
  { id: 'depth-wide', width: 1100, shownAt: 'wide' },
  { id: 'depth-mid', width: 690, shownAt: 'mid' },
  { id: 'depth-phone', width: 352, shownAt: 'phone' },
];

/** How deep does every part lie? The drawing in several widths, of which the page shows the one that fits, and the same as a table. */
export function depthSection(context: ReportContext): ReportSection {
  const { verdict } = context;
  const zones = depthZones(verdict);
  const title = `Depth section of ${verdict.product.name}`;
  const description = `${counted(verdict.parts.length, 'part')} by the step at which each comes free; the table after the drawing says the same.`;
  const needsBreadth = !standsUpright(zones, 1100) && standsUpright(zones, broad.width);
  const unplaced = verdict.parts.filter((part) => depthOf(part) === undefined);
  const body =
    zones.length === 0
      ? html`<p>The record has no part whose depth is known, so there is nothing to draw.</p>`
      : html`<p>The product cut across: ${facesWords(context)} A part lies as deep as the steps that free it from the complete product. Priority parts have a heavy edge. Hatching is depth that open facts may still add; a broken edge means that no route is shown yet. A line leads to what must be off first; without a line that is not known. Dotted lines are the bands of Annex IV point 5 (up to 2, 5, 10 and 15 steps). On a narrow screen, or where the parts do not fit side by side, the section lies on its side: faces at the left, depth to the right, hatching under the slab. Pairing steps add no depth here; they count in the index.</p>
<div class="${needsBreadth ? 'drawing broadly' : 'drawing'}">${(needsBreadth ? [broad, ...drawings] : drawings).map(
          ({ id, width, shownAt }) =>
            html`<div class="${shownAt}">${depthDrawing(zones, { id, width, title, description })}</div>`,
        )}</div>
${unplaced.length > 0 ? html`<p>Not in the drawing, since nothing shows how deep they lie: ${unplaced.map(({ name }, index) => html`${index > 0 ? ', ' : ''}${quoted(name)}`)}.</p>` : undefined}
${depthTable(context)}`;
  return { id: 'depth', title: 'Depth section', body };
}

function facesWords({ verdict }: ReportContext): Markup {
  const [first, second, ...others] = verdict.faces;
  if (first === undefined) return html`the record names no face, so there is one way in.`;
  if (second === undefined) return html`${quoted(first.name)} above.`;
  const rest = others.length > 0 ? ', the other faces underneath' : '';
  return html`${quoted(first.name)} above, ${quoted(second.name)} below, the core between${rest}.`;
}

function depthTable(context: ReportContext): Markup {
  const order = (part: PartVerdict) => depthOf(part)?.step ?? Number.MAX_SAFE_INTEGER;
  const rows = [...context.verdict.parts].sort((a, b) => order(a) - order(b));
  return wideTable({
    caption: 'Depth of every part, shallow first',
    head: headRow([
      'part',
      '[steps]',
      'reached from',
      'must be off first',
      'priority part',
      'what keeps the depth open',
    ]),
    body: html`<tbody>${rows.map((part) => depthRow(part, context))}</tbody>`,
  });
}

function depthRow(part: PartVerdict, context: ReportContext): Markup {
  const face = context.verdict.faces.find(({ id }) => id === part.face);
  const name =
    part.priority === undefined
      ? quoted(part.name)
      : html`<a href="#${partAnchor(part.part)}">${quoted(part.name)}</a>`;
  return html`<tr><th scope="row">${name}</th><td class="n">${depthWords(part)}</td><td>${
    face === undefined ? 'not known' : quoted(face.name)
  }</td><td>${mustBeOff(part, context)}</td><td>${
    part.priority === undefined ? 'no' : 'yes'
  }</td><td>${openWords(part)}</td></tr>`;
}

function mustBeOff({ after, depth }: PartVerdict, context: ReportContext): Markup {
  if (after !== undefined) return quoted(context.partName(after));
  return depth.shown === undefined ? html`not known` : html`nothing`;
}

function openWords(part: PartVerdict): Markup {
  const { shown, atLeast, why } = part.depth;
  if (shown !== undefined && (atLeast === undefined || atLeast >= shown)) return html`nothing`;
  const fallback = shown === undefined ? 'no route is shown' : 'open facts';
  return quoted(why ?? fallback);
}
