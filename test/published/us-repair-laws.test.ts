// Source: summaries of Oregon SB 1596 (Oregon Laws 2024 ch. 69), Colorado HB24-1121 (C.R.S. 6-1-1502 and -1503; the legislature's
// act summary), Washington HB 1483 (2025), California SB 244 (Public Resources Code 42488 ff.), Minn. Stat. 325E.72 and N.Y. Gen.
// Bus. Law 399-nn. The sections themselves were not read (secondary); Minnesota's row is from memory. Days and periods only.
import { describe, expect, it } from 'vitest';
import { DUTY_TABLES } from '#schemes/duties/duty-tables';
import { type Changes, fullRecord, judged } from '../duties/full-record.ts';

const stateOf = (row: string, changes: Changes) => judged(fullRecord(), { changes, rows: [row] }).get(row)?.state;

describe('days of the repair laws of six states', () => {
  it.each([
    [
      'or-prevent',
      [
        ['made', 'after', '2025-01-01'],
        ['sold', 'after', '2025-01-01'],
      ],
    ],
    [
      'or-means',
      [
        ['sold', 'from', '2015-07-01'],
        ['conduct', 'from', '2025-01-01'],
      ],
    ],
    [
      'co-prevent',
      [
        ['made', 'after', '2026-01-01'],
        ['sold', 'after', '2026-01-01'],
      ],
    ],
    [
      'co-means',
      [
        ['sold', 'from', '2021-07-01'],
        ['conduct', 'from', '2026-01-01'],
      ],
    ],
    ['wa-prevent', [['made', 'after', '2026-01-01']]],
    [
      'wa-means',
      [
        ['sold', 'from', '2021-07-01'],
        ['conduct', 'from', '2026-01-01'],
      ],
    ],
    [
      'ca-means-seven-years',
      [
        ['made', 'from', '2021-07-01'],
        ['sold', 'from', '2021-07-01'],
        ['conduct', 'from', '2024-07-01'],
      ],
    ],
    [
      'mn-means',
      [
        ['sold', 'from', '2021-07-01'],
        ['conduct', 'from', '2024-07-01'],
      ],
    ],
    [
      'ny-means',
      [
        ['made', 'from', '2023-07-01'],
        ['sold', 'from', '2023-07-01'],
        ['conduct', 'from', '2023-12-28'],
      ],
    ],
  ])('%s', (id, days) => {
    const row = DUTY_TABLES.flatMap(({ rows }) => rows).find((candidate) => candidate.id === id);
    const found = row?.dates?.map(({ decides, from, after }) => [
      decides,
      from === undefined ? 'after' : 'from',
      from ?? after,
    ]);
    expect(found).toEqual(days);
  });

  it('California: three years from 50.00 to 99.99 USD, seven from 100 USD', () => {
    const price = (usd: string, years: number): Changes => ({
      'product/markets/US-CA/wholesalePrice': usd,
      'product/markets/US-CA/offeredYears': years,
    });
    const both = (usd: string, years: number) =>
      ['ca-means-three-years', 'ca-means-seven-years'].map((row) => stateOf(row, price(usd, years)));
    expect(both('49.99 USD', 7)).toEqual(['does-not-apply', 'does-not-apply']);
    expect(both('50.00 USD', 3)).toEqual(['met', 'does-not-apply']);
    expect(both('99.99 USD', 2.9)).toEqual(['not-met', 'does-not-apply']);
    expect(both('100.00 USD', 7)).toEqual(['does-not-apply', 'met']);
    expect(both('100.00 USD', 6.9)).toEqual(['does-not-apply', 'not-met']);
  });

  it('New York: only where authorised repairers get it, and not for contracts of business or government alone', () => {
    expect(stateOf('ny-means', { 'product/markets/US-NY/givenToAuthorised': false })).toBe('does-not-apply');
    expect(stateOf('ny-means', { 'product/markets/US-NY/businessOnly': true })).toBe('does-not-apply');
  });
});
