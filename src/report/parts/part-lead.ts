import { counted, listed } from '#quantity/counts';
import { stepPoints, stepsEarning } from '#schemes/eu-2023-1669/bands';
import type { PartVerdict, RouteVerdict } from '#verdict/verdict';
import { bandWords } from '../depth/law-bands.ts';
import { type Content, html, type Markup, quoted } from '../html/markup.ts';
import type { ReportContext } from '../report-context.ts';
import { basisWords, roleWords, routeTimeWords } from '../words/terms.ts';

/**
 * How is this part reached, why in so many steps, and what does that do to the letter? A paragraph in plain words, every
 * word of it from the verdict's data.
 */
export function partLead(part: PartVerdict, context: ReportContext): Markup {
  return html`<p>${wayWords(part, context)}</p><p>${whyWords(part)}</p>${pointsWords(part, context)}`;
}

function wayWords(part: PartVerdict, context: ReportContext): Markup {
  const { best, depth } = part;
  if (best === undefined) {
    const least =
      depth.atLeast === undefined ? '' : ` Nothing on record allows fewer than ${counted(depth.atLeast, 'step')}.`;
    return html`No route to the part is shown${depth.why === undefined ? undefined : html`: ${quoted(depth.why)}`}.${least}`;
  }
  const blocking = (part.blocking ?? []).map((id) => quoted(context.partName(id)));
  const way =
    blocking.length === 0
      ? html`Nothing else has to come off`
      : html`On the way ${blocking.length === 1 ? 'comes' : 'come'} off: ${blocking.map((name, index) => html`${separator(index, blocking.length)}${name}`)}`;
  const measured = routeTimeWords(best);
  const time = measured === 'not measured' ? ' No time was measured.' : ` The times on record add up to ${measured}.`;
  return html`By the best route found the part comes free in ${counted(best.steps, 'step')}${pairing(best)}. ${way}.${time}`;
}

function pairing({ pairingSteps }: RouteVerdict): string {
  return pairingSteps === 0 ? '' : `, ${pairingSteps} of which are for pairing the new part`;
}

function separator(index: number, length: number): string {
  if (index === 0) return '';
  return index === length - 1 ? ' and ' : ', ';
}

/** Why so many: what ends the steps of the route, counted by kind of work. */
function whyWords(part: PartVerdict): Content {
  const { best, depth } = part;
  if (best === undefined) return undefined;
  const twoTools = best.lines.filter(({ from, to, tools }) => to > from && tools.length > 1).length;
  const others = best.lines.length - twoTools;
  const kinds = [
    counted(others, 'line of the ledger ends one step', 'lines of the ledger end one step each'),
    ...(twoTools > 0
      ? [`${counted(twoTools, 'line uses', 'lines use')} several tools at once, which is a step a tool`]
      : []),
    ...(best.pairingSteps > 0 ? [`pairing adds ${best.pairingSteps}`] : []),
  ];
  const fewer =
    depth.atLeast !== undefined && depth.shown !== undefined && depth.atLeast < depth.shown
      ? html` It could be as few as ${depth.atLeast}${depth.why === undefined ? undefined : html`: ${quoted(depth.why)}`}.`
      : undefined;
  return html`Why ${best.steps}: ${listed(kinds)}; ${best.steps === 1 ? '1 step lies' : `${best.steps} steps lie`} ${bandEarns(best.steps)}.${fewer} ${proofWords(best)}`;
}

/** Which points does the band of these steps earn, and what would the band on either side? */
function bandEarns(steps: number): string {
  const points = stepPoints(steps);
  const band = stepsEarning(points);
  const beside = [(band?.least ?? 0) - 1, (band?.greatest ?? 0) + 1]
    .filter((other) => other >= 0 && Number.isFinite(other))
    .map((other) => `${other} would earn ${stepPoints(other)}`);
  return `in the band of ${bandWords(steps)}, which earns ${counted(points, 'point')}; ${beside.join(', ')}`;
}

function proofWords({ proved, bound, steps }: RouteVerdict): string {
  if (proved) return 'No shorter route exists in what the record shows (proved).';
  return bound === undefined
    ? `Whether a route under ${counted(steps, 'step')} exists is not proved.`
    : `The search stopped before a proof: no route is shorter than ${counted(bound, 'step')}.`;
}

/** What the part brings to the index, basis by basis, with links into the explanation. */
function pointsWords({ priority }: PartVerdict, context: ReportContext): Content {
  if (priority === undefined || context.verdict.bases.length === 0) return undefined;
  const several = context.verdict.parts.filter((other) => other.priority === priority).length > 1;
  const words = context.verdict.bases.flatMap(({ basis, figures }) => {
    const points = figures.parts[priority];
    if (points === undefined) return [];
    const { steps, DD, F, T } = points;
    const figure = (score: string, value: number | null) =>
      context.figure(basis, [score, priority], value === null ? 'open' : String(value));
    return [
      html`<li>${basisWords[basis]}: ${steps === null ? 'steps open' : counted(steps, 'step')}, depth ${figure('SDD', DD)}, fasteners ${figure('SF', F)}, tools ${figure('ST', T)} points</li>`,
    ];
  });
  return html`<p>What the index takes for ${roleWords[priority].toLowerCase()}${several ? ' (of several instances, the lowest)' : ''}:</p><ul>${words}</ul>`;
}
