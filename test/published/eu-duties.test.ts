// Source: Regulation (EU) 2023/1670 (CELEX 02023R1670-20250620), Annex II; Regulation (EU) 2023/1542 (CELEX 32023R1542), Art. 11,
// 95 and 96; Directive (EU) 2024/1799 (CELEX 32024L1799), Art. 5: thresholds and days as read in the texts. Directive 2014/53/EU
// (CELEX 32014L0053) as amended by Directive (EU) 2022/2380 (CELEX 32022L2380) from texts about it, not read. Each threshold is
// asserted by what the engine makes of a figure on it and just off it, so that no tolerance is used.
import { describe, expect, it } from 'vitest';
import { DUTY_TABLES } from '#schemes/duties/duty-tables';
import { type Changes, fullRecord, judged } from '../duties/full-record.ts';

const stateOf = (row: string, changes: Changes, category = 'smartphone') =>
  judged(fullRecord(category), { changes, rows: [row] }).get(row)?.state;
const figure = (name: string, is: number): Changes => ({ [`product/figures/${name}/is`]: is });

interface Threshold {
  readonly row: string;
  readonly figure: string;
  readonly on: number;
  readonly off: number;
  readonly category?: string;
  readonly met?: Changes;
}

const FOIL: Changes = { 'product/facts/foil-foldable/is': true };

const THRESHOLDS: readonly Threshold[] = [
  { row: 'ed-parts-professionals', figure: 'parts-offered-years', on: 7, off: 6.99 },
  { row: 'ed-parts-end-users', figure: 'parts-offered-years', on: 7, off: 6.99 },
  { row: 'ed-battery-route-ii', figure: 'capacity-after-500-cycles', on: 83, off: 82.99 },
  { row: 'ed-battery-route-ii', figure: 'capacity-after-1000-cycles', on: 80, off: 79.99 },
  { row: 'ed-information-access', figure: 'information-offered-years', on: 7, off: 6.99 },
  { row: 'ed-information-access', figure: 'registration-working-days', on: 5, off: 6 },
  { row: 'ed-information-access', figure: 'information-access-working-days', on: 1, off: 2 },
  { row: 'ed-end-user-instructions', figure: 'instructions-offered-years', on: 7, off: 6.99 },
  { row: 'ed-serialised', figure: 'pairing-access-working-days', on: 3, off: 4 },
  { row: 'ed-serialised', figure: 'pairing-offered-years', on: 7, off: 6.99 },
  { row: 'ed-falls', figure: 'falls', on: 45, off: 44 },
  { row: 'ed-falls', figure: 'units-passing-falls', on: 4, off: 3 },
  { row: 'ed-falls-foldable', figure: 'falls-closed', on: 35, off: 34, met: FOIL },
  { row: 'ed-falls-foldable', figure: 'falls-open', on: 15, off: 14, met: FOIL },
  { row: 'ed-scratch', figure: 'scratch-hardness', on: 4, off: 3.99 },
  { row: 'ed-endurance', figure: 'cycles-to-80-percent', on: 800, off: 799 },
  { row: 'ed-endurance', figure: 'cycles-to-80-percent', on: 800, off: 799, category: 'slate-tablet' },
  { row: 'ed-endurance-other-phones', figure: 'cycles-to-80-percent', on: 500, off: 499, category: 'feature-phone' },
  { row: 'ed-updates', figure: 'security-update-months', on: 4, off: 5 },
  { row: 'ed-updates', figure: 'functionality-update-months', on: 6, off: 7 },
  { row: 'ed-recyclers', figure: 'dismantling-information-years', on: 15, off: 14.99 },
  { row: 'ed-cordless-standby', figure: 'standby-base', on: 1, off: 1.01, category: 'cordless-phone' },
  { row: 'br-spare', figure: 'parts-offered-years', on: 5, off: 4.99 },
  { row: 'cc-without-charger', figure: 'pictogram-width', on: 12.8, off: 12.79 },
  { row: 'cc-without-charger', figure: 'pictogram-height', on: 9.3, off: 9.29 },
];

describe('thresholds of the acts', () => {
  it.each(THRESHOLDS)(
    '$row: $figure of $on meets it, $off does not',
    ({ row, figure: name, on, off, category, met = {} }) => {
      expect(stateOf(row, { ...met, ...figure(name, on) }, category)).toBe('met');
      expect(stateOf(row, { ...met, ...figure(name, off) }, category)).toBe('not-met');
    },
  );

  it('Annex II 1.1(3)(a): five working days at first, ten after five years', () => {
    const days = (count: number, date: string): Changes => ({
      'spares/spare-battery/deliveryWorkingDays': count,
      'spares/spare-battery/date': date,
    });
    expect([5, 6].map((count) => stateOf('ed-delivery', days(count, '2027-06-01')))).toEqual(['met', 'not-met']);
    expect([10, 11].map((count) => stateOf('ed-delivery', days(count, '2032-06-01')))).toEqual(['met', 'not-met']);
  });

  it('ingress: IP67 for phones and IP42 for tablets on route ii, IP44 for phones as such', () => {
    const code = (row: string, is: string, category?: string) => stateOf(row, { 'product/ingress/code': is }, category);
    expect([code('ed-battery-route-ii', 'IP67'), code('ed-battery-route-ii', 'IP57')]).toEqual(['met', 'not-met']);
    const tablet = (is: string) => code('ed-battery-route-ii', is, 'slate-tablet');
    expect([tablet('IP42'), tablet('IP41'), tablet('IP32')]).toEqual(['met', 'not-met', 'not-met']);
    expect([code('ed-ingress', 'IP44'), code('ed-ingress', 'IP43'), code('ed-ingress', 'IP34')]).toEqual([
      'met',
      'not-met',
      'not-met',
    ]);
  });
});

describe('days of the acts', () => {
  it.each([
    ['eu-2023-1670', 'CELEX 02023R1670-20250620', ['placed', '2025-06-20']],
    ['eu-2023-1542', 'CELEX 32023R1542', ['placed', '2027-02-18']],
    ['eu-2024-1799', 'CELEX 32024L1799', ['conduct', '2026-07-31']],
    ['eu-2014-53', 'CELEX 32014L0053, amended by CELEX 32022L2380', ['placed', '2024-12-28']],
  ])('%s, %s: %j', (law, identifier, day) => {
    const table = DUTY_TABLES.find((candidate) => candidate.law === law);
    expect(table?.identifier).toBe(identifier);
    expect(table?.dates?.map(({ decides, from }) => [decides, from])).toEqual([day]);
  });

  it('the eleven items of Annex II 1.1(2)(e) are each asked for', () => {
    const items = Object.keys((fullRecord().supply as { information: object }).information);
    expect(items.length).toBe(11);
    for (const item of items)
      expect([
        item,
        stateOf('ed-information-contents', { [`supply/information/${item}/professionals/access`]: 'not-offered' }),
      ]).toEqual([item, 'not-met']);
  });
});
