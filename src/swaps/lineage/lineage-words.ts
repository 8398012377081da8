import { counted } from '#quantity/counts';
import type { EffectCode } from '../model/swap-run.ts';
import type { EffectCell, EffectCounts, EffectTable } from './effect-table.ts';
import { EFFECT_CODES } from './effect-table.ts';
import type { LineageState, LineageStep, TestedLevel } from './lineage.ts';

/** How is each state of a lineage called? */
const LINEAGE_WORDS: Readonly<Record<LineageState, string>> = {
  'carried-over': 'carried over',
  fixed: 'fixed',
  new: 'new',
  changed: 'changed',
  none: 'no effect before or after',
  open: 'open: runs of one level disagree',
  'not-tested': 'not tested',
};

/** How often was each effect seen? `E4 in 2 runs, E0 in 1 run`, the worst first; empty where none was. */
const countsWords = (counts: EffectCounts): string =>
  EFFECT_CODES.toReversed()
    .flatMap((code) => {
      const count = counts[code] ?? 0;
      return count === 0 ? [] : [`${code} in ${counted(count, 'run')}`];
    })
    .join(', ');

/** Which effect heads a cell? The worst that two runs showed; where none was seen twice, the worst seen, and that it was seen once. */
export const cellHead = ({ worst, reproduced }: EffectCell): string => {
  if (worst === undefined) return 'not tested';
  return reproduced ?? `${worst}, seen once`;
};

/** What else does a cell say, line by line? Runs and hosts counted; the own part; after a step; what was set aside; what says nothing. */
export const cellLines = (cell: EffectCell): readonly string[] => {
  const { counts, hosts, worst, own, afterStep, setAside, uncounted } = cell;
  const whys = [...new Set(setAside.map(({ why }) => why))].join(', ');
  return [
    ...(worst === undefined ? [] : [`${countsWords(counts)}; ${counted(hosts.length, 'host')}`]),
    ...(countsWords(own) === '' ? [] : [`own part: ${countsWords(own)}`]),
    ...(countsWords(afterStep) === '' ? [] : [`after a step: ${countsWords(afterStep)}`]),
    ...(setAside.length === 0 ? [] : [`set aside: ${counted(setAside.length, 'run')} (${whys})`]),
    ...(uncounted.length === 0 ? [] : [`${counted(uncounted.length, 'run')} not told apart or hidden`]),
  ];
};

/** Which codes stand anywhere in a table, from no trace on? */
export const codesIn = ({ rows }: EffectTable): readonly EffectCode[] => {
  const cells = rows.flatMap((row) => row.cells);
  const shown = new Set(
    cells.flatMap(({ counts, own, afterStep }) => [counts, own, afterStep].flatMap((each) => Object.keys(each))),
  );
  return EFFECT_CODES.filter((code) => shown.has(code));
};

/** What does one step of a lineage say, with the level tested at both ends? */
export const lineageWords = ({ from, to, state }: LineageStep): string =>
  `${LINEAGE_WORDS[state]}: ${levelWords(from)}; then ${levelWords(to)}`;

const levelWords = ({ product, cell }: TestedLevel): string => {
  const firmware = cell?.firmware === undefined ? '' : ` on firmware ${cell.firmware}`;
  const what = cell ? `${countsWords(cell.counts)} (${counted(cell.hosts.length, 'host')})` : 'no foreign fit';
  return `${product === undefined ? '' : `${product}: `}${what}${firmware}`;
};
