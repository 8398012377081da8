import type { Explained } from '#quantity/explained';
import { ARM_NAMES } from '#swaps/model/fit-words';
import type {
  LineageVerdict,
  NamedExplanation,
  SwapRunLine,
  SwapsVerdict,
  SwapVerdict,
} from '#verdict/swaps/swaps-verdict';
import { anchorOf } from '../html/anchor.ts';
import { type Content, html, joined, type Markup, quoted } from '../html/markup.ts';
import { headRow, wideTable } from '../html/table.ts';
import { correctionMark } from '../log/correction-mark.ts';
import type { ReportContext } from '../report-context.ts';
import { treeMarkup } from '../rubric/tree-markup.ts';

/** Which fragment has the part of the swaps? */
export function swapAnchor(part: string): string {
  return anchorOf('swap-part', part);
}

/** What did the swaps of one part come to? The words at the level tested, then all they rest on. */
export function swapArticle(swap: SwapVerdict, verdict: SwapsVerdict, context: ReportContext): Markup {
  const { part, name, words, excluded, moot, gaps, runs } = swap;
  const links = (ids: readonly string[]): Markup => runLinks(ids, runs);
  return html`<section aria-labelledby="${swapAnchor(part)}"><h3 id="${swapAnchor(part)}">${quoted(name)}</h3>
<p>${quoted(words)}</p>
${standingMarkup(swap)}
${excluded.length === 0 ? undefined : html`<p>Excluded:</p><ul>${excluded.map((one) => html`<li>${one.name}, by ${one.by.length === 0 ? 'the runs together' : links(one.by)}</li>`)}</ul>`}
${moot.length === 0 ? undefined : html`<p class="small soft">Does not arise, since nothing in any run could come from it: ${namesOf(moot)}.</p>`}
${lineageMarkup(swap, verdict, links)}
${gaps.length === 0 ? undefined : html`<p>What is left open:</p><ul>${gaps.map((gap) => html`<li>${quoted(gap.words)}${gap.runs.length === 0 ? undefined : html` <span class="soft">(${links(gap.runs)})</span>`}</li>`)}</ul>`}
${figuresMarkup(swap)}
${runsTable(swap, context)}</section>`;
}

function namesOf(explanations: readonly NamedExplanation[]): string {
  return explanations.map(({ name }) => name).join(', ');
}

function standingMarkup({ standing, decided, newestAlone }: SwapVerdict): Markup {
  const alone =
    newestAlone === undefined
      ? undefined
      : html`<p>By the runs on firmware ${quoted(newestAlone.firmware)} alone: ${namesOf(newestAlone.standing) || 'nothing stands'}.</p>`;
  if (standing.length === 0) return html`<p>No single explanation agrees with every run.</p>${alone}`;
  if (decided) return html`<p>One explanation stands: ${decided.name}.</p>`;
  return html`<p>Undecided. Still standing:</p><ul>${standing.map(({ name, says }) => html`<li>${name}: ${says}</li>`)}</ul>`;
}

/** Runs as links to their lines; ids that have none, as those of another part in a pool, as text. */
function runLinks(ids: readonly string[], runs: readonly SwapRunLine[]): Markup {
  const listed = new Set(runs.map(({ id }) => id));
  return joined(
    ids.map((id) =>
      listed.has(id) ? html`<a href="#${anchorOf('swaps', id)}">${quoted(`swaps/${id}`)}</a>` : quoted(`swaps/${id}`),
    ),
    ', ',
  );
}

type Links = (ids: readonly string[]) => Markup;

function lineageMarkup(
  { acrossFirmware, fromPredecessor }: SwapVerdict,
  { predecessor }: SwapsVerdict,
  links: Links,
): Markup {
  const line = ({ words, runs }: LineageVerdict): Content =>
    html`<li>${quoted(words)}${runs.length === 0 ? undefined : html` <span class="soft">(${links(runs)})</span>`}</li>`;
  const across =
    acrossFirmware.length === 0
      ? undefined
      : html`<p>From firmware to firmware:</p><ul>${acrossFirmware.map(line)}</ul>`;
  const since =
    fromPredecessor === undefined || predecessor === undefined
      ? undefined
      : html`<p>Since the predecessor ${quoted(predecessor)}:</p><ul>${line(fromPredecessor)}</ul>`;
  return html`${across}${since}`;
}

/** The figures with their counts and the runs behind them, folded. */
function figuresMarkup({ effects }: SwapVerdict): Markup | undefined {
  const trees = effects.flatMap(({ firmware, shareOfUnits, fisher }) =>
    [shareOfUnits, fisher].flatMap((tree) => (tree ? [labelled(tree, firmware)] : [])),
  );
  if (trees.length === 0) return undefined;
  return html`<div class="walk">${trees.map((tree) => treeMarkup(tree, 1))}</div>`;
}

function labelled(tree: Explained, firmware: string | undefined): Explained {
  return {
    ...tree,
    label: `${tree.label}, ${firmware === undefined ? 'firmware not recorded' : `firmware ${firmware}`}`,
  };
}

function runsTable({ name, runs }: SwapVerdict, context: ReportContext): Markup | undefined {
  if (runs.length === 0) return undefined;
  return wideTable({
    caption: `Runs of ${name}`,
    head: headRow(['[run]', 'host', 'fitted', 'stage', 'firmware', 'effect', 'evidence']),
    body: html`<tbody>${runs.map((run) => runRow(run, context))}</tbody>`,
  });
}

function runRow(
  { id, run, host, piece, arm, firmware, effect, outcome, steps, evidence }: SwapRunLine,
  context: ReportContext,
): Markup {
  const after = steps.length === 0 ? undefined : html`<span class="width">${steps.join(', ')}</span>`;
  return html`<tr id="${anchorOf('swaps', id)}"><th scope="row" class="n">${run} <span class="width">${quoted(id)}</span></th><td>${quoted(host)}</td><td>${quoted(piece)}${after}</td><td>${arm === undefined ? '' : ARM_NAMES[arm]}</td><td>${firmware === undefined ? 'not recorded' : quoted(firmware)}</td><td>${effectText(effect, outcome)}${correctedBy(id, context)}</td><td>${evidence.length > 0 ? context.evidence(evidence) : 'none'}</td></tr>`;
}

function effectText(effect: SwapRunLine['effect'], outcome: SwapRunLine['outcome']): string {
  if (outcome === 'unseen')
    return effect === undefined ? 'not recorded' : `${effect} of another part: nothing seen of this one`;
  return effect ?? outcome;
}

/** What was read of the run before, the latest first, each with what it gave way to. */
function correctedBy(id: string, { log }: ReportContext): Content {
  const corrections = log?.corrections ?? [];
  const earlier: Content[] = [];
  const seen = new Set<string>();
  let address = `swaps/${id}`;
  for (;;) {
    const before = corrections.find(({ by }) => by === address);
    if (before === undefined || seen.has(before.of)) return earlier;
    seen.add(before.of);
    earlier.push(html`<p class="small soft">before: ${quoted(before.of)}</p>`, correctionMark(before));
    address = before.of;
  }
}
