import { BOLD_WOFF2, REGULAR_WOFF2 } from './font-data.ts';
import { drawingStyle } from './style-drawings.ts';
import { printStyle } from './style-print.ts';

const face = (weight: number, data: string) =>
  `@font-face{font-family:"Atkinson Hyperlegible";font-weight:${weight};font-style:normal;` +
  `src:url(data:font/woff2;base64,${data}) format("woff2");` +
  'unicode-range:U+0020-007E,U+00A0-00FF,U+2013-2014,U+2018-201E,U+2026}';

const light = `--paper:#f6f4ee;--slab:#fffdf7;--ink:#1d2326;--soft:#575f62;--hair:#c9c6bb;--rule:#8b8f8c;--accent:#a33c17;color-scheme:light`;
const dark = `--paper:#14181a;--slab:#1d2326;--ink:#e9e6dc;--soft:#a3abad;--hair:#353d40;--rule:#6f787b;--accent:#eb9a6b;color-scheme:dark`;

const base = `
:root{${light}}
@media (prefers-color-scheme:dark){:root{${dark}}}
*{box-sizing:border-box}
html{scroll-padding-top:1rem;-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.5 "Atkinson Hyperlegible","Noto Sans","DejaVu Sans",system-ui,sans-serif;font-variant-numeric:tabular-nums;overflow-wrap:anywhere}
.sheet{max-width:1180px;margin:0 auto;padding:28px 36px 64px}
a{color:inherit;text-decoration-color:var(--rule);text-underline-offset:.18em}
a:hover{text-decoration-color:currentColor}
:focus-visible{outline:3px solid var(--accent);outline-offset:2px}
.skip{position:absolute;left:-999em}
.skip:focus{left:12px;top:12px;background:var(--slab);padding:8px 14px;z-index:1}
h1,h2,h3,h4{line-height:1.25;font-weight:700;margin:0}
h1{font-size:28px}
h2{font-size:21px;border-top:1.5px solid var(--ink);padding-top:10px;margin:52px 0 12px}
h3{font-size:18px;margin:40px 0 8px}
h4{font-size:15.5px;margin:24px 0 6px}
p{margin:0 0 10px;max-width:78ch}
ul,ol{margin:0 0 12px;padding-left:1.3em;max-width:78ch}
li{margin:0 0 4px}
dl{margin:0}
.soft{color:var(--soft)}
.wedge{display:inline;vertical-align:baseline}
.wedge path{fill:none;stroke:currentColor}
.small{font-size:14px}
.needs{color:var(--accent);font-weight:700}
code{font:inherit;overflow-wrap:anywhere}
`;

const titleBlock = `
.title{border:1.5px solid var(--ink);display:grid;grid-template-columns:minmax(0,1.2fr) minmax(0,2fr)}
.title>div{padding:18px 22px}
.title .what{border-right:1px solid var(--rule)}
.title .what p{margin:6px 0 0}
.title dl{display:grid;grid-template-columns:repeat(3,minmax(0,1fr))}
.title dl div{padding:8px 14px;border-bottom:1px solid var(--hair);border-left:1px solid var(--hair)}
.title dl div:nth-child(3n+1){border-left:0}
.title dl .whole{grid-column:1/-1;border-left:0;border-bottom:0}
.title .cells{padding:0}
.title dt{font-size:13px;color:var(--soft)}
.title dd{margin:0}
.contents{margin:22px 0 0}
.contents ol{columns:3;column-gap:32px;max-width:none;padding-left:1.8em;margin:6px 0 0}
.contents ul{list-style:none;padding-left:1.1em;margin:0}
.contents li{break-inside:avoid;margin:0}
.contents a{display:inline-block;padding:3px 0;min-height:26px}
.notice{border:1px solid var(--rule);padding:10px 14px;max-width:none}
`;

const tables = `
table{border-collapse:collapse;width:100%;font-size:14.5px;line-height:1.4}
caption{text-align:left;color:var(--soft);padding:0 0 6px;font-size:14px}
th,td{text-align:left;vertical-align:top;padding:7px 14px 7px 0;border-top:1px solid var(--hair)}
th:last-child,td:last-child{padding-right:0}
thead th{overflow-wrap:normal;color:var(--soft);font-weight:700;font-size:13.5px;vertical-align:bottom}
tbody th{font-weight:400}
th,td{overflow-wrap:break-word}
.readings table{table-layout:fixed}.readings th:first-child{width:26%}.readings th:nth-child(2){width:17%}.readings th:nth-child(3){width:13%}
tbody{border-bottom:1px solid var(--hair)}
th.group{border-top:1.5px solid var(--ink);font-weight:700;padding-top:9px;font-size:14px;color:var(--ink)}
thead tr:first-child th{border-top:1.5px solid var(--ink)}
.n{text-align:right;white-space:nowrap}
td.n:not(:last-child),th.n:not(:last-child){padding-right:22px}
.first{border-left:1px solid var(--hair);padding-left:14px}
.width{display:block;color:var(--soft);font-size:13px}
.scroll{overflow-x:auto;margin:0 0 18px}
.scroll table{min-width:720px}
.scroll .slim{min-width:0}
td ul{margin:0;padding-left:1.1em}
td p{margin:0 0 4px}
td p:last-child{margin:0}
.fig{text-decoration-style:dotted}
td .fig{display:inline-block;min-width:24px;min-height:24px}
.caution td{border:1px solid var(--accent);padding:9px 14px}
.warn{border:1px solid var(--accent);padding:10px 14px;max-width:none;margin:0 0 12px}
.warn p,.caution p{max-width:none;margin:0 0 4px}
.warn p:last-child,.caution p:last-child{margin:0}
.digest{font-size:13px;overflow-wrap:anywhere}
.ledger{margin:0 0 16px;table-layout:fixed}
.ledger .c1{width:4.5em}.ledger .c2{width:26%}.ledger .c3{width:15%}.ledger .c5{width:11em}.ledger .c6{width:20%}
.why dt,.totals dt{color:var(--soft)}
.totals{display:grid;grid-template-columns:max-content minmax(0,1fr);gap:3px 18px;margin:0 0 16px;font-size:15px}
.totals dd{margin:0;max-width:78ch}
`;

const walk = `
details{border-top:1px solid var(--hair)}
details>details:last-child,.walk>details:last-child{border-bottom:0}
summary{padding:6px 0;cursor:pointer;min-height:28px}
summary::marker{color:var(--soft)}
summary .value{font-weight:700}
details .in{padding:0 0 10px 22px}
.in p{font-size:14.5px;margin:0 0 6px}
.in table{font-size:14px}
.route summary{font-weight:700}
`;

const narrow = `
@media (max-width:1000px){.contents ol{columns:2}.title{grid-template-columns:minmax(0,1fr)}.title .what{border-right:0;border-bottom:1px solid var(--rule)}}
@media (max-width:719px){
.sheet{padding:16px 16px 48px}
h1{font-size:24px}h2{font-size:19px;margin-top:40px}
.contents ol{columns:1}
.title dl{grid-template-columns:minmax(0,1fr)}
.title dl div{border-left:0;display:grid;grid-template-columns:8em minmax(0,1fr);gap:8px}
.totals{grid-template-columns:minmax(0,1fr);gap:0}.totals dd{margin:0 0 8px}
.scroll th[scope=row]{position:sticky;left:0;background:var(--paper);min-width:7.5em}
details .in{padding-left:12px}
th,td{padding-right:10px}.n .width{white-space:normal}td.n:not(:last-child),th.n:not(:last-child){padding-right:12px}
}
@media screen and (max-width:719px){
.ledger,.ledger caption,.ledger tbody,.ledger tr,.ledger td,.ledger tbody th{display:block}
.ledger colgroup{display:none}
.ledger thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.ledger tr{border-top:1px solid var(--rule);padding:8px 0}
.ledger tbody{border-bottom:1px solid var(--rule)}
.ledger td,.ledger tbody th{border:0;padding:2px 0 2px 5.8em;position:relative;min-height:24px;text-align:left;white-space:normal}
.ledger tbody th.group{padding-left:0;font-weight:700}
.ledger td::before,.ledger tbody th::before{content:attr(data-label);position:absolute;left:0;width:5.4em;color:var(--soft)}
.ledger tbody th.group::before,.ledger .caution td::before{content:none}
.ledger .caution{border:0}
.ledger .caution td{border:1px solid var(--accent);padding:8px 12px}
.ledger td:empty{display:none}
}
`;

/** Which stylesheet does the report carry? Fonts, both themes, narrow screens and paper; `runningHead` heads every printed page. */
export function reportStyle(runningHead: string): string {
  return [
    face(400, REGULAR_WOFF2),
    face(700, BOLD_WOFF2),
    base,
    titleBlock,
    tables,
    walk,
    drawingStyle,
    narrow,
    printStyle(runningHead, light),
  ].join('\n');
}
