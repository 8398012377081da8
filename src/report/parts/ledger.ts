import { stretch } from '#quantity/counts';
import type { Caution, LedgerLine, RouteVerdict } from '#verdict/verdict';
import { type Content, html, type Markup, quoted } from '../html/markup.ts';
import type { ReportContext } from '../report-context.ts';
import { cautionReference } from '../sections/cautions.ts';
import { clockText } from '../words/durations.ts';

/** The same on a narrow screen, where they stand before every cell. */
const shortHeads = ['step', 'done', 'with', 'fasteners', 'time', 'ended by'] as const;
const heads = [
  'step',
  'what is done',
  'with',
  'fasteners, class each leaves',
  'time, min:s',
  'why the step ended',
] as const;

/**
 * What is done on a route, step by step? A ledger: lines of the stretch in which fasteners and tools count stand under a
 * heading of their own, a caution stands before the step it applies to.
 */
export function ledger(route: RouteVerdict, caption: string, context: ReportContext): Markup {
  if (route.lines.length === 0) return html`<p>The route has no step: the part is free on the complete product.</p>`;
  const warned = cautionRows(route.lines, context);
  return html`<table class="ledger"><caption>${caption}</caption>
<colgroup>${heads.map((_, index) => html`<col class="c${index + 1}">`)}</colgroup>
<thead><tr>${heads.map((head) => html`<th scope="col">${head}</th>`)}</tr></thead>
${stretches(route.lines).map((lines) => ledgerGroup(lines, warned, context))}</table>`;
}

function stretches(lines: readonly LedgerLine[]): readonly (readonly LedgerLine[])[] {
  const groups: LedgerLine[][] = [];
  for (const line of lines) {
    const last = groups[groups.length - 1];
    if (last?.[0]?.inStretch === line.inStretch) last.push(line);
    else groups.push([line]);
  }
  return groups;
}

type WarnedLines = ReadonlyMap<LedgerLine, readonly Markup[]>;

function ledgerGroup(lines: readonly LedgerLine[], warned: WarnedLines, context: ReportContext): Markup {
  const words = lines[0]?.inStretch
    ? 'From the last priority part before it: here fasteners and tools count'
    : 'On the way: only the steps count';
  return html`<tbody><tr><th class="group" scope="rowgroup" colspan="${heads.length}">${words}</th></tr>
${lines.map((line) => ledgerRow(line, warned.get(line) ?? [], context))}</tbody>`;
}

const preparation = /^(?:heat|cool|dissolve|soak|clean)\b/i;

/** Heating and the like name no fastener but prepare one: the caution of a fastener stands before what prepares it. */
function cautionsBefore(lines: readonly LedgerLine[], at: number, context: ReportContext): readonly Caution[] {
  const prepares = (index: number) => {
    const line = lines[index];
    return line !== undefined && line.fasteners.length === 0 && line.does.every((words) => preparation.test(words));
  };
  if (prepares(at - 1)) return [];
  let last = at;
  while (prepares(last) && last < lines.length - 1) last += 1;
  return context.cautionsAt(lines[last]?.fasteners.map(({ id }) => id) ?? []);
}

/** What warns before which line? By title with a link: the words stand once, before the routes. */
function cautionRows(lines: readonly LedgerLine[], context: ReportContext): WarnedLines {
  return new Map(lines.map((line, index) => [line, cautionsBefore(lines, index, context).map(cautionRow)] as const));
}

function cautionRow(caution: Caution): Markup {
  return html`<tr class="caution"><td colspan="${heads.length}">${cautionReference(caution)}</td></tr>`;
}

function ledgerRow(line: LedgerLine, before: readonly Markup[], context: ReportContext): Markup {
  const cells: readonly Content[] = [
    html`${listOf(line.does)}${line.damage === undefined ? undefined : html`<p><strong>Damage:</strong> ${quoted(line.damage)}</p>`}`,
    line.tools.length === 0 ? 'bare hands' : listOf(line.tools),
    line.fasteners.length === 0 ? 'none' : fasteners(line),
    timeCell(line),
    html`${quoted(line.ended)}${line.evidence.length === 0 ? undefined : html`<span class="width">evidence: ${context.evidence(line.evidence)}</span>`}`,
  ];
  return html`${before}<tr><th scope="row" data-label="step">${stretch(line.from, line.to)}</th>${cells.map(
    (cell, index) => html`<td data-label="${shortHeads[index + 1]}">${cell}</td>`,
  )}</tr>`;
}

function listOf(texts: readonly string[]): Markup {
  return html`${texts.map((text) => html`<p>${quoted(text)}</p>`)}`;
}

function fasteners({ fasteners: used }: LedgerLine): Markup {
  return html`${used.map(({ name, kind, count, leaves }) => html`<p>${count} × ${quoted(name)} <span class="soft">(${quoted(kind)})</span>: ${quoted(leaves)}</p>`)}`;
}

function timeCell({ seconds, spread }: LedgerLine): Markup {
  if (seconds === undefined && spread === undefined) return html`not measured`;
  const mean = seconds === undefined ? undefined : html`mean ${clockText(seconds)}`;
  if (spread === undefined) return html`${mean}`;
  const range =
    spread.n === 1
      ? 'measured once'
      : `median ${clockText(spread.median)}, ${stretch(clockText(spread.low), clockText(spread.high))}, n ${spread.n}`;
  return html`${mean}<span class="width">${range}</span>`;
}
