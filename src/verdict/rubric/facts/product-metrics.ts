import type { MissingFact } from '#quantity/explained';
import { parseQuantity } from '#quantity/parse-quantity';
import { endsOf, inUnit } from '#quantity/quantity';
import { productFacts } from '#schemes/eu-2023-1669/bases/product-facts';
import type { Finding, InformationAccess } from '#schemes/eu-2023-1669/input';
import { roleName } from '#schemes/role-name';
import { SWAP_WORDS } from '../../swaps/swap-words.ts';
import type { Basis } from '../../verdict.ts';
import { exactText } from '../exact-text.ts';
import type { MetricValue } from '../metric-value.ts';
import type { Metric } from '../rubric-schema.ts';
import type { MetricSource } from './metric-source.ts';

/** How many of the eleven items of repair information does an audience get free of charge? What end users get, all get. */
export const informationValue = (
  audience: NonNullable<Metric['audience']>,
  { assessment, readings }: MetricSource,
): MetricValue => {
  const items = Object.values(productFacts(assessment, readings).information).map(({ endUsers, professionals }) => {
    const implied = audience === 'professionals' && isFree(endUsers) ? endUsers : professionals;
    return audience === 'end-users' ? endUsers : implied;
  });
  const free = items.filter(isFree).length;
  const open = items.filter(({ state }) => state === 'open').length;
  return {
    range: { low: String(free), high: String(free + open) },
    none: false,
    whole: true,
    missing: items.flatMap((item) => (item.state === 'open' ? item.missing : [])),
    evidence: [...new Set(items.flatMap((item) => (item.state === 'known' ? item.evidence : [])))],
  };
};

const isFree = (finding: Finding<InformationAccess>): boolean => finding.state === 'known' && finding.value === 'free';

/** For how many years is one kind of update guaranteed? */
export const updateYearsValue = (
  kind: NonNullable<Metric['updates']>,
  { assessment, readings }: MetricSource,
): MetricValue => {
  const years = productFacts(assessment, readings).updates[kind];
  if (years.state !== 'known')
    return {
      range: { low: '0', high: null },
      none: false,
      missing: years.state === 'open' ? years.missing : [],
      evidence: [],
    };
  const value = String(years.value);
  return { range: { low: value, high: value }, none: false, missing: [], evidence: years.evidence };
};

/** Which value has a measured quantity, in the unit of the scale? Its stated uncertainty or range is its width. */
export const measuredValue = ({ measure = '', unit = '' }: Metric, { assessment }: MetricSource): MetricValue => {
  const record = assessment.measures?.[measure];
  const stated = record && parseQuantity(record.value).quantity;
  const converted = stated && inUnit(stated, unit);
  const missing = (what: string, remedy: string): MetricValue => ({
    range: { low: null, high: null },
    none: false,
    missing: [{ address: `measures/${measure}`, what, remedy }],
    evidence: [],
  });
  if (!record) return missing(`the measure ${measure}`, `measure it, and record it under the id ${measure}`);
  if (!converted) return missing(`${record.of} in ${unit}`, `record it in ${unit} or a unit that converts to it`);
  const { low, high } = endsOf(converted);
  const [from, to] = [exactText(low), exactText(high)];
  const width: MissingFact = {
    address: `measures/${measure}/value`,
    what: `${record.of} more exactly than ${record.value}`,
    remedy: 'repeat the measurement with a smaller uncertainty',
  };
  const evidence = record.evidence ?? [];
  return { range: { low: from, high: to }, none: false, missing: from === to ? [] : [width], evidence };
};

/** What did the part swaps find? Open in every direction where no part of the role was swapped. */
export const swapValue = (role: string, { swapFindings }: MetricSource): MetricValue => {
  const found = swapFindings?.[role];
  if (found)
    return {
      words: SWAP_WORDS.filter((word) => found.words.includes(word)),
      none: false,
      missing: found.missing,
      evidence: found.evidence,
    };
  const missing: MissingFact = {
    address: 'swaps',
    what: `what the software makes of another ${roleName(role)}: it was not swapped`,
    remedy: 'swap the part between two specimens, both ways, with the refit control',
  };
  return { words: SWAP_WORDS, none: false, missing: [missing], evidence: [] };
};

/** What does the EU index say on a basis? Between the lowest and highest form of the verdict; out of scope there is none. */
export const indexValue = ({ score = 'R', basis }: Metric, source: MetricSource): MetricValue => {
  const { bases, scope } = source.index();
  if (scope.inScope === false)
    return { none: true, missing: [], evidence: [], note: `out of scope: ${scope.outOfScope}` };
  const found = bases.find((each) => each.basis === (basis as Basis));
  const whole = { low: '1', high: '5' };
  if (!found)
    return {
      range: whole,
      none: true,
      missing: [{ address: 'product', what: `the index on the ${basis} basis`, remedy: 'record what it rests on' }],
      evidence: [],
    };
  const read = (end: typeof found.figures): string | null => (score === 'R' ? end.R : end.scores[score]);
  const low = read(found.low ?? found.figures);
  const high = read(found.high ?? found.figures);
  const none = low === null || high === null || found.mayBeNotScorable;
  const range = { low: low ?? whole.low, high: high ?? whole.high };
  return { range, none, missing: none || low !== high ? found.missing : [], evidence: [] };
};
