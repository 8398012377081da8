import { type Content, html, type Markup, trusted } from './markup.ts';

/** What one page holds: its title, its style with everything it needs, what stands above the content, and the content. */
export interface PageParts {
  readonly title: string;
  readonly style: string;
  readonly above: Content;
  readonly content: Content;
}

/**
 * One self-contained HTML file as text: no script, no request, under a content security policy that admits its own style and
 * nothing else.
 */
export function pageText({ title, style, above, content }: PageParts, sha256Base64: (text: string) => string): string {
  const policy = `default-src 'none'; style-src 'sha256-${sha256Base64(style)}'; font-src data:; base-uri 'none'; form-action 'none'`;
  const page: Markup = html`${trusted('<!doctype html>')}
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${title}</title>
<style>${trusted(style)}</style>
</head>
<body>
<a class="skip" href="#content">Skip to the content</a>
<div class="sheet">
${above}
<main id="content" tabindex="-1">
${content}
</main>
</div>
</body>
</html>`;
  return `${page.text}\n`;
}
