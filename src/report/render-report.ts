import type { Verdict } from '#verdict/verdict';
import { depthSection } from './depth/depth-section.ts';
import { type Content, html, type Markup, quoted, trusted } from './html/markup.ts';
import { reportStyle } from './look/style.ts';
import { partsSection } from './parts/part-section.ts';
import { type ReportContext, type ReportSection, reportContext } from './report-context.ts';
import { basesSection } from './sections/bases-section.ts';
import { burdenSection } from './sections/burden-section.ts';
import { cautionsSection } from './sections/cautions.ts';
import { examinedSection } from './sections/examined.ts';
import { interpretationsSection } from './sections/interpretations.ts';
import { openFactsSection } from './sections/open-facts.ts';
import {
  damageSection,
  evidenceSection,
  remarksSection,
  sheetSection,
  sourcesSection,
} from './sections/record-sections.ts';
import { summarySection } from './sections/summary.ts';
import { titleBlock } from './sections/title-block.ts';
import { verdictSection } from './sections/verdict-section.ts';
import { walkBackSection } from './walk/walk-back.ts';

/** What the renderer takes from the world. */
export interface ReportTools {
  /** SHA-256 of a text's UTF-8 bytes in base64, for the content security policy. */
  sha256Base64(text: string): string;
}

const sections: readonly ((context: ReportContext) => ReportSection)[] = [
  summarySection,
  verdictSection,
  basesSection,
  examinedSection,
  depthSection,
  cautionsSection,
  partsSection,
  burdenSection,
  interpretationsSection,
  openFactsSection,
  sheetSection,
  damageSection,
  remarksSection,
  walkBackSection,
  evidenceSection,
  sourcesSection,
];

/**
 * How does a verdict read as a report? One self-contained HTML file: no script, no request, styles and fonts inside, under a
 * content security policy that admits nothing else. Same verdict, same bytes.
 */
export function renderReport(verdict: Verdict, tools: ReportTools): string {
  const context = reportContext(verdict);
  const style = reportStyle(`${verdict.product.name} – ${verdict.heading}`);
  const policy = `default-src 'none'; style-src 'sha256-${tools.sha256Base64(style)}'; font-src data:; base-uri 'none'; form-action 'none'`;
  const rendered = sections.map((section) => section(context));
  return `${
    html`${trusted('<!doctype html>')}
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${verdict.product.name}: ${verdict.heading}</title>
<style>${trusted(style)}</style>
</head>
<body>
<a class="skip" href="#content">Skip to the content</a>
<div class="sheet">
${titleBlock(context)}
${contents(rendered)}
<main id="content" tabindex="-1">
${rendered.map(sectionMarkup)}
</main>
</div>
</body>
</html>`.text
  }\n`;
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
