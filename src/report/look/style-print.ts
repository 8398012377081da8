/** How does text read as a CSS string? Everything but letters, digits and spaces as an escape, so that nothing ends it. */
export function cssString(text: string): string {
  const escaped = text.replace(/[^A-Za-z0-9 ]/gu, (character) => {
    const code = character.codePointAt(0) ?? 0;
    const refused = code === 0 || (code >= 0xd800 && code <= 0xdfff);
    return `\\${(refused ? 0xfffd : code).toString(16)} `;
  });
  return `"${escaped}"`;
}

/** How does the report look on paper? Light colours whatever the screen, a running head, nothing folded away, no row cut in two. */
export function printStyle(runningHead: string, lightColours: string): string {
  return `
@page{size:A4;margin:20mm 14mm 18mm;
@top-left{content:${cssString(runningHead)};font:9pt "Atkinson Hyperlegible",sans-serif;color:#1d2326}
@bottom-right{content:"page " counter(page) " of " counter(pages);font:9pt "Atkinson Hyperlegible",sans-serif;color:#1d2326}}
@media print{
:root{${lightColours};--paper:#fff;--slab:#fff}
html{font-size:10.5pt}
body{font-size:10pt}
.sheet{max-width:none;padding:0}
.skip{display:none}
h1{font-size:17pt}h2{font-size:13.5pt;margin-top:20pt}h3{font-size:12pt;margin-top:16pt}h4{font-size:10.5pt}
h2,h3,h4,caption,summary,th.group{break-after:avoid}
tr,.drawing,.warn,.title,dl.totals,.scroll:has(.slim){break-inside:avoid}
caption,th.group{font-size:9pt}thead th{font-size:8.5pt}
.width,.digest,.small{font-size:8pt}
thead{display:table-header-group}
table,td,th,.totals{font-size:8.8pt}
th,td{padding:3.5pt 8pt 3.5pt 0}
.first{padding-left:6pt}
.scroll{overflow:visible}
.scroll table{min-width:0}
.contents ol{columns:2}
.contents a{padding:0;min-height:0}
.fig,summary{min-height:0}
summary{padding:2pt 0}
details::details-content{content-visibility:visible;display:block;block-size:auto;opacity:1}
.page{break-before:page}
.drawing .mid{display:block}
.broadly{margin-inline:0}.drawing .broad,.drawing .wide,.drawing .phone{display:none}
a{text-decoration:none}
}`;
}
