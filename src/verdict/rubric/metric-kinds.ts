import { roleName } from '#schemes/role-name';
import { SWAP_WORDS } from '../swaps/swap-words.ts';
import type { Metric, MetricKind } from './rubric-schema.ts';

/** Which fields may a metric need besides its kind? */
export type MetricField = Exclude<keyof Metric, 'of'>;

/** What is one kind of metric: the fields it needs, what it is called, its unit or its words from worst to best. */
export interface MetricDescription {
  readonly fields: readonly MetricField[];
  readonly label: string;
  /** Unit of a number [as printed]; undefined where the value is a word. */
  readonly unit?: string;
  /** Words from worst to best; undefined where the value is a number. */
  readonly words?: readonly string[];
  /** Only whole numbers. */
  readonly whole?: true;
  /** What is there instead of a value where there is none; undefined where there always is one. */
  readonly none?: string;
}

/** Reuse classes from worst to best, in the manner of EN 45554, whose tables were not read. */
export const REUSE_WORDS = ['destroyed', 'removable', 'resupplied', 'reusable'] as const;
/** Tool classes from worst to best, in the manner of EN 45554, whose tables were not read. */
export const TOOL_WORDS = ['not-on-sale', 'commercial', 'with-product', 'with-spare', 'basic', 'none-needed'] as const;
const manner = 'in the manner of EN 45554, whose tables were not read';

/** What is every kind of metric? */
export const metricKinds: Readonly<Record<MetricKind, MetricDescription>> = {
  steps: {
    fields: ['role', 'basis'],
    label: 'steps without pairing',
    unit: 'steps',
    whole: true,
    none: 'no route',
  },
  'expected-time': { fields: ['role'], label: 'expected time', unit: 's', none: 'no route' },
  damage: { fields: ['role'], label: 'lowest chance of damage, 0 to 1', none: 'no route' },
  'reuse-class': {
    fields: ['role', 'basis'],
    label: `worst reuse class on the route, ${manner}`,
    words: REUSE_WORDS,
    none: 'no route',
  },
  'tool-class': {
    fields: ['role', 'basis'],
    label: `worst tool class on the route, ${manner}`,
    words: TOOL_WORDS,
    none: 'no route',
  },
  reversible: { fields: ['role'], label: 'putting back', words: ['not-shown', 'shown'] },
  pairing: { fields: ['role'], label: 'remote actions for full function', unit: 'actions', whole: true },
  'transfer-work': {
    fields: ['role'],
    label: 'actions to move over what the spare does not include',
    unit: 'actions',
    whole: true,
    none: 'no spare',
  },
  'spare-offered': {
    fields: ['role'],
    label: 'to whom the spare is offered',
    words: ['nobody', 'professionals', 'end-users'],
  },
  'price-ratio': {
    fields: ['role'],
    label: 'price of the spare over the price of the product',
    unit: 'of the product price',
    none: 'no spare',
  },
  information: {
    fields: ['audience'],
    label: 'items of repair information free of charge, of eleven',
    unit: 'items',
    whole: true,
  },
  'update-years': { fields: ['updates'], label: 'guaranteed years of updates', unit: 'years' },
  measured: { fields: ['measure', 'unit'], label: 'measured' },
  'swap-finding': { fields: ['role'], label: 'finding of the part swap', words: SWAP_WORDS },
  'index-score': {
    fields: ['score', 'basis'],
    label: 'EU repairability index',
    unit: 'of 5',
    none: 'not scorable',
  },
};

/** Is the value of a metric a word? Otherwise it is a number. */
export const wordsOf = (metric: Metric): readonly string[] | undefined => metricKinds[metric.of].words;

/** How is a metric addressed? Its kind and fields between `/`: the same text, the same metric. */
export const metricKey = (metric: Metric): string =>
  [metric.of, ...metricKinds[metric.of].fields.map((field) => metric[field] ?? '?')].join('/');

/** How is a metric called on paper? */
export const metricLabel = (metric: Metric): string => {
  const { label } = metricKinds[metric.of];
  const basis = metric.basis === undefined ? undefined : metric.basis === 'best' ? 'best found' : metric.basis;
  const about = [
    metric.role === undefined ? undefined : roleName(metric.role),
    metric.measure,
    metric.score,
    metric.updates,
    metric.audience === undefined ? undefined : `for ${metric.audience.replaceAll('-', ' ')}`,
    basis,
  ].filter((word) => word !== undefined);
  return `${label}: ${about.join(', ')}`;
};

/** In which unit are the numbers of a metric? */
export const unitOf = (metric: Metric): string | undefined =>
  metric.of === 'measured' ? metric.unit : metricKinds[metric.of].unit;
