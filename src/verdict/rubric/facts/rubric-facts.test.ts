import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { type LogLine, smallRecord } from '../../../../test/records/small-record.ts';
import { metricKey } from '../metric-kinds.ts';
import type { MetricValue } from '../metric-value.ts';
import type { Metric, Rubric } from '../rubric-schema.ts';
import type { FactsRequest } from './metric-source.ts';
import { rubricFacts } from './rubric-facts.ts';
import { worstOf } from './worst-of.ts';

type Raw = Readonly<Record<string, unknown>>;

const asking = (metric: Metric): Rubric =>
  ({ criteria: { only: { title: '', metric, scale: {}, weight: 1 } } }) as unknown as Rubric;

const valueOfMetric = (assessment: Assessment, metric: Metric, more: Partial<FactsRequest> = {}): MetricValue =>
  rubricFacts({ assessment, ...more }, [asking(metric)]).metrics[metricKey(metric)] as MetricValue;

const LOG: readonly LogLine[] = [
  ['unscrew', 'screws', ['driver']],
  ['lift', 'cell'],
];
const record = (raw: Raw = {}): Assessment =>
  smallRecord({
    log: LOG,
    parts: { cell: { role: 'battery', behind: [], ...(raw.cell as Raw | undefined) }, lead: { within: 'cell' } },
    fasteners: {
      screws: {
        kind: 'screw',
        between: ['cell', 'chassis'],
        behind: [],
        ways: { out: { actions: [{ do: 'unscrew', tools: ['driver'] }], leaves: 'reusable' } },
      },
      tape: {
        kind: 'tape',
        between: ['lead', 'cell'],
        ways: { off: { actions: [{ do: 'peel' }, { do: 'clean' }] }, cut: { actions: [{ do: 'cut' }] } },
      },
    },
    ...(raw.more as Raw | undefined),
  });

const range = ({ range: ends, none }: MetricValue) => [ends?.low, ends?.high, none];
const sure = { standing: 'established' as const };

test('steps: the route shown and the one nothing excludes, pairing left to its own metric', () => {
  const metric = { of: 'steps', role: 'battery', basis: 'best' } as const;
  expect(range(valueOfMetric(record(), metric))).toEqual(['1', '1', false]);
  const paired = record({ cell: { remoteAuthorisation: true, remoteNotification: false } });
  expect(range(valueOfMetric(paired, metric))).toEqual(['1', '1', false]);
  const pairing = { of: 'pairing', role: 'battery' } as const;
  expect(range(valueOfMetric(paired, pairing))).toEqual(['1', '1', false]);
  expect(range(valueOfMetric(record(), pairing))).toEqual(['0', '2', false]);
  expect(range(valueOfMetric(record({ cell: { serialised: false } }), pairing))).toEqual(['0', '0', false]);
});

test('steps: a basis that has nothing leaves everything open, no route included', () => {
  expect(range(valueOfMetric(record(), { of: 'steps', role: 'battery', basis: 'declared' }))).toEqual([
    '1',
    null,
    true,
  ]);
});

test('classes: those of the route, open to the worst where nobody looked', () => {
  expect(valueOfMetric(record(), { of: 'reuse-class', role: 'battery', basis: 'observed' }).words).toEqual([
    'reusable',
  ]);
  expect(valueOfMetric(record(), { of: 'tool-class', role: 'battery', basis: 'observed' }).words).toEqual(['basic']);
});

test('expected time and damage: settled where every trial is made and every time known', () => {
  expect(range(valueOfMetric(record(), { of: 'expected-time', role: 'battery' }))).toEqual(['20', '20', false]);
  expect(range(valueOfMetric(record(), { of: 'damage', role: 'battery' }))).toEqual(['0', '0', false]);
});

test('reversible: open until it is shown, or the record says that it was not', () => {
  const metric = { of: 'reversible', role: 'battery' } as const;
  expect(valueOfMetric(record(), metric).words).toEqual(['not-shown', 'shown']);
  expect(valueOfMetric(record({ cell: { putBack: 'shown' } }), metric).words).toEqual(['shown']);
  expect(valueOfMetric(record({ cell: { putBack: 'not-shown' } }), metric).words).toEqual(['not-shown']);
});

const spares = (...list: readonly Raw[]): Raw => ({
  more: {
    product: { price: '600 EUR' },
    spares: Object.fromEntries(
      list.map((spare, index) => [`s${index}`, { name: 'Cell', replaces: ['cell'], ...spare }]),
    ),
  },
});

test('price ratio: exact, the cheapest established price, open where another may be cheaper or the currency differs', () => {
  const ratio = (...list: readonly Raw[]) =>
    range(valueOfMetric(record(spares(...list)), { of: 'price-ratio', role: 'battery' }));
  expect(ratio({ price: '70 EUR', ...sure })).toEqual(['7/60', '7/60', false]);
  expect(ratio({ price: '70 EUR', ...sure }, { price: '60 ± 6 EUR', ...sure })).toEqual(['0.09', '0.11', false]);
  expect(ratio({ price: '70 EUR', ...sure }, {})).toEqual(['0', '7/60', false]);
  expect(ratio({ price: '70 EUR', standing: 'announced' })).toEqual(['0', null, true]);
  expect(ratio({ price: '70 USD', ...sure })).toEqual(['0', null, true]);
  expect(ratio()).toEqual(['0', null, true]);
});

test('spare offered: the widest audience, open as far as no established offer settles it', () => {
  const words = (...list: readonly Raw[]) =>
    valueOfMetric(record(spares(...list)), { of: 'spare-offered', role: 'battery' }).words;
  expect(words({ endUsers: { how: 'delivered', ...sure } })).toEqual(['end-users']);
  expect(words({ endUsers: { how: 'refused', ...sure }, professionals: { how: 'delivered', ...sure } })).toEqual([
    'professionals',
  ]);
  expect(words({ professionals: { how: 'delivered', ...sure } })).toEqual(['professionals', 'end-users']);
  expect(words()).toEqual(['nobody', 'professionals', 'end-users']);
});

test('nobody is sold the part: no spare to price or to move anything to', () => {
  const refused = { how: 'refused', ...sure };
  const none = record(spares({ endUsers: refused, professionals: refused }));
  expect(range(valueOfMetric(none, { of: 'price-ratio', role: 'battery' }))).toEqual([undefined, undefined, true]);
  expect(range(valueOfMetric(none, { of: 'transfer-work', role: 'battery' }))).toEqual([undefined, undefined, true]);
});

test('transfer work: a lift and one way of each fastener for what the spare does not include', () => {
  const work = (...list: readonly Raw[]) =>
    range(valueOfMetric(record(spares(...list)), { of: 'transfer-work', role: 'battery' }));
  expect(work({ includes: ['lead'] })).toEqual(['0', '0', false]);
  expect(work({ includes: [] })).toEqual(['2', '3', false]);
  expect(work({ includes: [] }, { includes: ['lead'] })).toEqual(['0', '0', false]);
  expect(work({})).toEqual(['0', '3', false]);
  expect(work()).toEqual(['0', '3', true]);
});

test('information: items free of charge, those not known at both ends; what end users get professionals get', () => {
  const information = {
    'repair-manual': { endUsers: { access: 'free', ...sure } },
    'fault-codes': { endUsers: { access: 'not-offered', ...sure }, professionals: { access: 'free', ...sure } },
  };
  const told = record({ more: { supply: { information } } });
  expect(range(valueOfMetric(told, { of: 'information', audience: 'end-users' }))).toEqual(['1', '10', false]);
  expect(range(valueOfMetric(told, { of: 'information', audience: 'professionals' }))).toEqual(['2', '11', false]);
});

test('update years and measures: as established, in the unit of the scale, with their stated width', () => {
  const told = record({
    more: {
      supply: { software: { security: { years: 6.5, ...sure } } },
      measures: { pull: { of: 'suction', value: '16.7 ± 0.2 kPa' } },
    },
  });
  expect(range(valueOfMetric(told, { of: 'update-years', updates: 'security' }))).toEqual(['6.5', '6.5', false]);
  expect(range(valueOfMetric(told, { of: 'update-years', updates: 'functionality' }))).toEqual(['0', null, false]);
  expect(range(valueOfMetric(told, { of: 'measured', measure: 'pull', unit: 'Pa' }))).toEqual([
    '16500',
    '16900',
    false,
  ]);
  expect(range(valueOfMetric(told, { of: 'measured', measure: 'pull', unit: 'g' }))).toEqual([null, null, false]);
});

test('swap findings: open in every direction until a swap plan hands its finding in', () => {
  const metric = { of: 'swap-finding', role: 'battery' } as const;
  expect(valueOfMetric(record(), metric).words).toHaveLength(8);
  const swapFindings = { battery: { words: ['notice', 'refused'], missing: [], evidence: [] } };
  expect(valueOfMetric(record(), metric, { swapFindings }).words).toEqual(['refused', 'notice']);
});

test('index score: the width of the basis, none out of scope', () => {
  const vacuum = record({ more: { product: { category: 'cordless-vacuum' } } });
  const metric = { of: 'index-score', score: 'SDD', basis: 'observed' } as const;
  expect(range(valueOfMetric(vacuum, metric))).toEqual([undefined, undefined, true]);
  const [low = '', high = ''] = range(valueOfMetric(record(), metric)).map(String);
  expect([Number(low) >= 1, Number(high) <= 5, Number(low) < Number(high)]).toEqual([true, true, true]);
});

test('presence: a recorded part, one recorded as absent, and one that nobody speaks of', () => {
  const parts = { cell: { role: 'battery' }, 'no-speaker': { role: 'speaker', absent: true } };
  const roles = (role: 'battery' | 'speaker' | 'display') =>
    rubricFacts({ assessment: smallRecord({ parts }) }, [asking({ of: 'reversible', role })]).roles[role]?.answer;
  expect([roles('battery'), roles('speaker'), roles('display')]).toEqual(['yes', 'no', 'open']);
});

test('worstOf: the higher number at each end, the worse word of every pair, and none before all', () => {
  const bare = { none: false, missing: [], evidence: [] };
  const numbers = worstOf([
    { ...bare, range: { low: '2', high: '9' } },
    { ...bare, range: { low: '1/3', high: null }, none: true },
  ]);
  expect(range(numbers)).toEqual(['2', null, true]);
  expect(
    worstOf(
      [
        { ...bare, words: ['b'] },
        { ...bare, words: ['a', 'c'] },
      ],
      ['a', 'b', 'c'],
    ).words,
  ).toEqual(['a', 'b']);
  expect(
    range(
      worstOf([
        { ...bare, range: { low: '1', high: '1' } },
        { ...bare, none: true },
      ]),
    ),
  ).toEqual([undefined, undefined, true]);
});
