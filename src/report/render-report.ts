import type { Assessment } from '#record/schema/assessment';
import type { Outlook } from '#verdict/outlook/outlook';
import type { RecordLog } from '#verdict/record-log';
import type { RubricScore } from '#verdict/rubric/score/rubric-score';
import type { Verdict } from '#verdict/verdict';
import { depthSection } from './depth/depth-section.ts';
import { type Content, html, type Markup, quoted } from './html/markup.ts';
import { pageText } from './html/page.ts';
import { logSection } from './log/log-section.ts';
import { reportStyle } from './look/style.ts';
import { partsSection } from './parts/part-section.ts';
import { type ReportContext, type ReportSection, reportContext } from './report-context.ts';
import { basesSection } from './sections/bases-section.ts';
import { burdenSection } from './sections/burden-section.ts';
import { cautionsSection } from './sections/cautions.ts';
import { dutiesSection } from './sections/duties-section.ts';
import { examinedSection } from './sections/examined.ts';
import { interpretationsSection } from './sections/interpretations.ts';
import { openFactsSection } from './sections/open-facts.ts';
import { outlookSection } from './sections/outlook-section.ts';
import {
  damageSection,
  evidenceSection,
  remarksSection,
  sheetSection,
  sourcesSection,
} from './sections/record-sections.ts';
import { rubricSection } from './sections/rubric-section.ts';
import { summarySection } from './sections/summary.ts';
import { swapsSection } from './sections/swaps-section.ts';
import { titleBlock } from './sections/title-block.ts';
import { verdictSection } from './sections/verdict-section.ts';
import { walkBackSection } from './walk/walk-back.ts';

/** What the renderer takes from the world. */
export interface ReportTools {
  /** SHA-256 of a text's UTF-8 bytes in base64, for the content security policy. */
  sha256Base64(text: string): string;
}

/** What stands in a report besides the verdict, where it was worked out. */
export interface ReportExtras {
  /** The score of a house rubric: its own section. */
  readonly house?: RubricScore;
  /** How far the verdict can still move: its own section, and marks on the ruler. */
  readonly outlook?: Outlook;
  /** The log as it was written: its own section, and the times and corrections of what is shown elsewhere. */
  readonly log?: RecordLog;
  /** The product as recorded: its days stand beside those from which a duty holds. */
  readonly product?: Assessment['product'];
}

const beforeOutlook: readonly ((context: ReportContext) => ReportSection)[] = [summarySection, verdictSection];

const beforeHouse: readonly ((context: ReportContext) => ReportSection)[] = [
  basesSection,
  examinedSection,
  depthSection,
  cautionsSection,
  partsSection,
  burdenSection,
  interpretationsSection,
  swapsSection,
  dutiesSection,
  openFactsSection,
];

const afterHouse: readonly ((context: ReportContext) => ReportSection)[] = [
  sheetSection,
  damageSection,
  remarksSection,
  walkBackSection,
];

const lastSections: readonly ((context: ReportContext) => ReportSection)[] = [evidenceSection, sourcesSection];

/**
 * How does a verdict read as a report? One self-contained HTML file: no script, no request, styles and fonts inside, under a
 * content security policy that admits nothing else. With an outlook or the score of a house rubric, their sections too. Same verdict,
 * same bytes.
 */
export function renderReport(
  verdict: Verdict,
  tools: ReportTools,
  { house, outlook, log, product }: ReportExtras = {},
): string {
  const context = reportContext(verdict, { outlook, log, product });
  const rendered = [
    ...beforeOutlook.map((section) => section(context)),
    ...(outlook === undefined ? [] : [outlookSection(outlook)]),
    ...beforeHouse.map((section) => section(context)),
    ...(house === undefined ? [] : [rubricSection(house)]),
    ...afterHouse.map((section) => section(context)),
    ...(log === undefined ? [] : [logSection(log)(context)]),
    ...lastSections.map((section) => section(context)),
  ];
  const page = {
    title: `${verdict.product.name}: ${verdict.heading}`,
    style: reportStyle(`${verdict.product.name} – ${verdict.heading}`),
    above: html`${titleBlock(context)}
${contents(rendered)}`,
    content: rendered.map(sectionMarkup),
  };
  return pageText(page, tools.sha256Base64);
}

function contents(rendered: readonly ReportSection[]): Markup {
  return html`<nav class="contents" aria-label="Contents"><ol>${rendered.map(({ id, title, below }) => html`<li><a href="#${id}">${title}</a>${placesBelow(below)}</li>`)}</ol></nav>`;
}

function placesBelow(below: ReportSection['below']): Content {
  if (below === undefined || below.length === 0) return undefined;
  return html`<ul>${below.map(({ id, title }) => html`<li><a href="#${id}">${quoted(title)}</a></li>`)}</ul>`;
}

function sectionMarkup({ id, title, body }: ReportSection, index: number): Markup {
  return html`<section aria-labelledby="${id}"><h2 id="${id}">${index + 1} ${title}</h2>
${body}
</section>
`;
}
