import { counted } from '#quantity/counts';
import type { PartVerdict, RouteVerdict } from '#verdict/verdict';
import { type Content, html, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import { partAnchor, priorityParts, type ReportContext, type ReportSection } from '../report-context.ts';
import { cautionReference } from '../sections/cautions.ts';
import { actionWords, difference } from '../words/action-words.ts';
import { chanceText, clockText, durationText } from '../words/durations.ts';
import { fastenerPointsWords, performedWords, routeTimeWords, toolPointsWords } from '../words/terms.ts';
import { ledger } from './ledger.ts';
import { partLead } from './part-lead.ts';

/** How is each priority part reached? One part after the other: in words, then its ledger and its totals. */
export function partsSection(context: ReportContext): ReportSection {
  const parts = priorityParts(context.verdict);
  const body =
    parts.length === 0
      ? html`<p>The record names no priority part, so there is no route to tell.</p>`
      : html`${parts.map((part) => partArticle(part, context))}`;
  const below = parts.map(({ part, name }) => ({ id: partAnchor(part), title: name }));
  return { id: 'parts', title: 'The routes to the priority parts', body, below };
}

function partArticle(part: PartVerdict, context: ReportContext): Markup {
  const cautions = context.cautionsAt([part.part]);
  return html`<section aria-labelledby="${partAnchor(part.part)}"><h3 id="${partAnchor(part.part)}">${quoted(part.name)}</h3>
${partLead(part, context)}
${cautions.map((caution) => html`<div class="warn">${cautionReference(caution)}</div>`)}
${part.best === undefined ? undefined : ledger(part.best, `${part.name}: best route found, ${counted(part.best.steps, 'step')}`, context)}
${definitions([...(part.best === undefined ? putBack(part) : totals(part, part.best, context)), ...otherFacts(part, context)])}${frontTable(part, context)}
${otherRoute(part, { route: part.observed, words: 'Observed at the bench', context })}
${otherRoute(part, { route: part.declared, words: "Declared in the maker's procedure", context })}</section>`;
}

/** Routes that differ from the ledger in more actions than this are told in full. */
const mostDifferences = 8;

type Rows = readonly (readonly [string, Content])[];

function totals(part: PartVerdict, route: RouteVerdict, context: ReportContext): Rows {
  const measured = routeTimeWords(route);
  const time = measured === 'not measured' ? measured : `${measured}, sum of the means`;
  const missing =
    route.missingDurations.length === 0
      ? undefined
      : html`; without a time: ${actionNames(route.missingDurations, context)}`;
  return [
    ['steps', `${route.steps}${route.pairingSteps > 0 ? `, of which pairing ${route.pairingSteps}` : ''}`],
    ['time', html`${time}${missing}`],
    ['fasteners of the stretch', fastenerPointsWords(route.fastenerPoints)],
    ['tools of the stretch', toolPointsWords(route.toolPoints)],
    ['route', quoted(performedWords(route))],
    ...putBack(part),
  ];
}

function putBack({ reversible }: PartVerdict): Rows {
  return [
    [
      'putting back',
      html`${reversible.shown ? 'reversible: shown' : 'reversible: not shown'}; ${quoted(reversible.why)}`,
    ],
  ];
}

function otherFacts(part: PartVerdict, context: ReportContext): Rows {
  const { leastTime, expected } = part;
  const rows: (readonly [string, Content])[] = [];
  if (part.mandatory !== undefined && part.mandatory.length > 0)
    rows.push(['on every route', actionNames(part.mandatory, context)]);
  if (part.blocking !== undefined && part.blocking.length > 0)
    rows.push(['blocking parts', names(part.blocking.map((id) => context.partName(id)))]);
  if (leastTime !== undefined)
    rows.push([
      'least time',
      html`${durationText(leastTime.seconds)}, ${leastTime.proved ? 'proved' : 'not proved'}: ${asLedger(leastTime.actions, part, context)}`,
    ]);
  if (expected !== undefined)
    rows.push([
      'expected time',
      html`${durationText(expected.seconds)} with failures counted in${expected.exact ? '' : ' (a bound, not exact)'}; chance of damage ${chanceText(expected.damage)}, of being stranded ${chanceText(expected.stranded)}. Likeliest: ${asLedger(expected.likeliest, part, context)}.${expected.note === undefined ? undefined : html` Note: ${quoted(expected.note)}.`}`,
    ]);
  const only = part.front?.length === 1 ? part.front[0] : undefined;
  if (only !== undefined)
    rows.push([
      'no better route',
      `in steps, expected time or chance of damage than one of ${counted(only.steps, 'step')}, ${durationText(only.expectedSeconds)}, damage ${chanceText(only.chanceOfDamage)}`,
    ]);
  if (part.missing.length > 0)
    rows.push([
      'open for this part',
      html`${part.missing.map(({ what, remedy }) => html`<p>${quoted(what)}. To settle it: ${quoted(remedy)}</p>`)}`,
    ]);
  return rows;
}

function definitions(rows: readonly (readonly [string, Content])[]): Markup {
  return html`<dl class="totals">${rows.map(([term, words]) => html`<dt>${term}</dt><dd>${words}</dd>`)}</dl>`;
}

function actionNames(actions: readonly string[], context: ReportContext): Markup {
  return names(actions.map((action) => actionWords(action, context.anyName)));
}

/** Actions of another route, told against the ledger where most of the work is the same. */
function asLedger(actions: readonly string[], part: PartVerdict, context: ReportContext): Markup {
  const own = part.best?.actions ?? [];
  const { added, left } = difference(actions, own);
  if (part.best === undefined || added.length + left.length > mostDifferences) return actionNames(actions, context);
  const same = html`the actions of the ledger, in this or another order`;
  if (added.length + left.length === 0) return same;
  const withWords = added.length > 0 ? html`, with ${actionNames(added, context)}` : undefined;
  const withoutWords = left.length > 0 ? html`, without ${actionNames(left, context)}` : undefined;
  return html`${same}${withWords}${withoutWords}`;
}

function names(texts: readonly string[]): Markup {
  return html`${texts.map((text, index) => html`${index > 0 ? ', ' : ''}${quoted(text)}`)}`;
}

function frontTable(part: PartVerdict, context: ReportContext): Content {
  const { front, name } = part;
  if (front === undefined || front.length < 2) return undefined;
  return wideTable({
    caption: `${name}: routes of which none is better in steps, expected time and chance of damage at once`,
    slim: true,
    head: headRow(['[steps]', '[expected time]', '[chance of damage]', 'how']),
    body: html`<tbody>${front.map(
      ({ steps, expectedSeconds, chanceOfDamage, actions }) =>
        html`<tr><td class="n">${steps}</td><td class="n">${clockText(expectedSeconds)}</td><td class="n">${chanceText(chanceOfDamage)}</td><td>${asLedger(actions, part, context)}</td></tr>`,
    )}</tbody>`,
  });
}

interface OtherRoute {
  readonly route: RouteVerdict | undefined;
  readonly words: string;
  readonly context: ReportContext;
}

function otherRoute(part: PartVerdict, { route, words, context }: OtherRoute): Content {
  if (route === undefined) return undefined;
  const low =
    words.startsWith('Observed') && part.observedLow !== undefined && part.observedLow < route.steps
      ? ` (at least ${part.observedLow})`
      : '';
  return html`<details class="route"><summary>${words}: ${counted(route.steps, 'step')}${low}</summary><div class="in">
${ledger(route, `${part.name}: ${words.toLowerCase()}`, context)}${definitions(totals(part, route, context))}</div></details>`;
}
