import { describe, expect, it } from 'vitest';
import { laterBy } from '#schemes/duties/day';
import { type Changes, CLEAN_SWAPS, fullRecord, judged } from './full-record.ts';

const stateOf = (row: string, changes: Changes, category = 'smartphone') => {
  const finding = judged(fullRecord(category), { changes, rows: [row] }).get(row);
  return [finding?.state, finding?.observed] as const;
};
const placed = (first: string | undefined, last: string | undefined): Changes => ({
  'product/firstPlaced': first,
  'product/endOfPlacing': last,
});

describe('the day of placing on the market', () => {
  it('Regulation (EU) 2023/1670 holds for units placed on 20 June 2025 itself, not the day before', () => {
    expect(stateOf('ed-endurance', placed('2025-06-20', undefined))[0]).toBe('met');
    expect(stateOf('ed-endurance', placed('2024-01-01', '2025-06-20'))[0]).toBe('met');
    const [state, observed] = stateOf('ed-endurance', placed('2024-01-01', '2025-06-19'));
    expect(state).toBe('does-not-apply');
    expect(observed).toBe('last placed on the market 2025-06-19; it holds for units placed from 2025-06-20');
  });

  it('a model that began earlier is not shown until it is known whether units are still placed', () => {
    const [state, observed] = stateOf('ed-endurance', placed('2025-06-19', undefined));
    expect([state, observed?.startsWith('whether it applies is not shown')]).toEqual(['not-shown', true]);
    expect(stateOf('ed-endurance', placed(undefined, undefined))[0]).toBe('not-shown');
  });

  it('Regulation (EU) 2023/1542 Art. 11 holds from 18 February 2027, and stands beside route ii, never in its place', () => {
    expect(stateOf('br-instructions', placed('2027-02-18', undefined))[0]).toBe('met');
    const before = judged(fullRecord(), { changes: placed('2026-09-18', '2027-02-17') });
    expect(before.get('br-instructions')?.state).toBe('does-not-apply');
    expect(before.get('ed-battery-route-ii')?.state).toBe('met');
  });

  it('the common charger holds from 28 December 2024, for laptops from 28 April 2026', () => {
    expect(stateOf('cc-receptacle', placed('2024-12-28', '2025-01-01'))[0]).toBe('met');
    expect(stateOf('cc-receptacle', placed('2024-01-01', '2024-12-27'))[0]).toBe('does-not-apply');
    expect(stateOf('cc-receptacle', placed('2026-04-28', '2026-05-01'), 'laptop')[0]).toBe('met');
    expect(stateOf('cc-receptacle', placed('2026-01-01', '2026-04-27'), 'laptop')[0]).toBe('does-not-apply');
  });
});

describe('first manufacture and first sale', () => {
  const made = (day: string | undefined, sold = '2027-03-01', state = 'US-OR'): Changes => ({
    'product/firstMade': day,
    [`product/markets/${state}/firstSold`]: sold,
  });

  it('the pairing rows of Oregon hold after 1 January 2025: not on the day itself', () => {
    expect(stateOf('or-prevent', made('2025-01-01'))).toEqual([
      'does-not-apply',
      'first made 2025-01-01; it holds for products first made after 2025-01-01',
    ]);
    expect(stateOf('or-prevent', made('2025-01-02'))[0]).toBe('met');
    expect(stateOf('or-prevent', made('2025-01-02', '2025-01-01'))[0]).toBe('does-not-apply');
    expect(stateOf('or-prevent', made(undefined))[0]).toBe('not-shown');
  });

  it('the pairing rows of Colorado and Washington hold after 1 January 2026', () => {
    expect(stateOf('co-reduce', made('2026-01-01', '2027-03-01', 'US-CO'))[0]).toBe('does-not-apply');
    expect(stateOf('co-reduce', made('2026-01-02', '2026-01-02', 'US-CO'))[0]).toBe('met');
    expect(stateOf('wa-reduce', made('2026-01-01', '2027-03-01', 'US-WA'))[0]).toBe('does-not-apply');
    expect(stateOf('wa-reduce', made('2026-01-02', '2020-01-01', 'US-WA'))[0]).toBe('met');
  });

  it('the general duty of Oregon holds for phones first sold from 1 July 2021, for others from 1 July 2015', () => {
    const sold = (day: string): Changes => ({ 'product/markets/US-OR/firstSold': day });
    expect(stateOf('or-means', sold('2021-07-01'))[0]).toBe('met');
    expect(stateOf('or-means', sold('2021-06-30'))[0]).toBe('does-not-apply');
    expect(stateOf('or-means', sold('2015-07-01'), 'laptop')[0]).toBe('met');
    expect(stateOf('or-means', sold('2015-06-30'), 'laptop')[0]).toBe('does-not-apply');
  });
});

describe('the day of what was seen', () => {
  it('Directive (EU) 2024/1799 looks at conduct from 31 July 2026 on', () => {
    const seen = (date: string | undefined): Changes => ({ 'product/facts/part-prices-do-not-deter/date': date });
    expect(stateOf('r2r-part-prices', seen('2026-07-31'))[0]).toBe('met');
    const [state, observed] = stateOf('r2r-part-prices', seen('2026-07-30'));
    expect([state, observed]).toEqual([
      'does-not-apply',
      'what is on record was seen before the law held (2026-07-31)',
    ]);
    expect(stateOf('r2r-part-prices', seen(undefined))[0]).toBe('not-shown');
  });

  it('a swap before that day is no breach of it', () => {
    const swaps = [
      ...CLEAN_SWAPS,
      { part: 'battery', effect: 'E5' as const, cause: 'pairing' as const, on: '2026-07-30', evidence: [] },
    ];
    expect(judged(fullRecord(), { swaps }).get('r2r-technique')?.state).toBe('does-not-apply');
  });

  it('a refusal counts once the duty to offer has begun, a month after the first placing', () => {
    const refusedOn = (date: string | undefined): Changes => ({
      'supply/parts/display/endUsers/how': 'refused',
      'supply/parts/display/endUsers/date': date,
    });
    expect(stateOf('ed-parts-end-users', refusedOn('2027-04-01'))[0]).toBe('not-met');
    const [state, observed] = stateOf('ed-parts-end-users', refusedOn('2027-03-31'));
    expect([state, observed?.endsWith('seen on 2027-03-31, and the duty begins on 2027-04-01')]).toEqual([
      'not-shown',
      true,
    ]);
    expect(stateOf('ed-parts-end-users', refusedOn(undefined))[0]).toBe('not-shown');
  });

  it('for a model placed before the law, the duty to offer begins with the law', () => {
    const changes: Changes = {
      ...placed('2024-05-01', '2027-01-01'),
      'supply/parts/display/endUsers/how': 'refused',
      'supply/parts/display/endUsers/date': '2025-06-20',
    };
    expect(stateOf('ed-parts-end-users', changes)[0]).toBe('not-met');
    expect(stateOf('ed-parts-end-users', { ...changes, 'supply/parts/display/endUsers/date': '2025-06-19' })[0]).toBe(
      'not-shown',
    );
  });
});

describe('laterBy', () => {
  it.each([
    ['2026-01-31', { months: 1 }, '2026-02-28'],
    ['2028-01-31', { months: 1 }, '2028-02-29'],
    ['2026-12-15', { months: 1 }, '2027-01-15'],
    ['2028-02-29', { years: 5 }, '2033-02-28'],
  ] as const)('%s and %o is %s, the last day of a month that has no such day', (day, by, later) => {
    expect(laterBy(day, by)).toBe(later);
  });
});
