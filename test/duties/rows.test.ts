import { describe, expect, it } from 'vitest';
import { DUTY_FACTS, DUTY_FIGURES } from '#record/schema/duty-facts';
import type { Check, DutyRow } from '#schemes/duties/duty-table';
import { DUTY_TABLES } from '#schemes/duties/duty-tables';
import { type Changes, fullRecord, judged } from './full-record.ts';
import { ROW_CASES, type RowCase } from './row-cases.ts';

const ROWS = DUTY_TABLES.flatMap(({ rows }) => rows);
const caseOf = (id: string): RowCase => ROW_CASES[id] ?? { broken: [] };

/** All checks of a row, those inside alternatives too. */
const allChecks = (checks: readonly Check[]): readonly Check[] =>
  checks.flatMap((check) => (check.kind === 'one-of' ? allChecks(check.of.flat()) : [check]));

const addressOf = (check: Check): string | undefined => {
  if (check.kind === 'fact') return `product/facts/${check.fact}`;
  return check.kind === 'figure' ? `product/figures/${check.figure}` : undefined;
};

const look = (row: Pick<DutyRow, 'id'>, what: object = {}, further: Changes = {}) => {
  const { category, met = {} } = caseOf(row.id);
  const isPlain = !('routes' in what || 'swaps' in what);
  const changes = { ...met, ...(isPlain ? (what as Changes) : {}), ...further };
  const other: object = isPlain ? {} : what;
  const rows = row.id === 'ed-battery-either' ? ['ed-battery-route-i', 'ed-battery-route-ii', row.id] : [row.id];
  const finding = judged(fullRecord(category), { ...other, changes, rows }).get(row.id);
  if (!finding) throw new RangeError(`no row ${row.id}`);
  return finding;
};

describe('the table of duties, row by row', () => {
  it('has a case for every row, and no row twice', () => {
    expect(Object.keys(ROW_CASES).sort()).toEqual(ROWS.map(({ id }) => id).sort());
    expect(ROWS.length).toBe(63);
  });

  it.each(ROWS)('$id is met where the record holds all it asks, and says on what it rests', (row) => {
    const finding = look(row);
    expect([finding.state, finding.missing]).toEqual(['met', []]);
    expect(finding.observed).not.toBe('');
  });

  it.each(ROWS.filter(({ id }) => id !== 'br-left-out'))(
    '$id is not met once one of the things it asks is broken',
    (row) => {
      const { broken } = caseOf(row.id);
      expect(broken.length).toBeGreaterThan(0);
      for (const change of broken) expect([look(row, change).state, change]).toEqual(['not-met', change]);
    },
  );

  it('br-left-out, an exception, does not apply where its reason is not so', () => {
    expect(look({ id: 'br-left-out' }, { 'product/facts/needs-permanent-power/is': false }).state).toBe(
      'does-not-apply',
    );
  });

  it.each(ROWS)('$id is not shown without a fact or figure it asks for, and names it', (row) => {
    for (const check of row.checks) {
      const address = addressOf(check);
      if (address === undefined) continue;
      const finding = look(row, { [address]: undefined });
      expect([finding.state, finding.missing.map((fact) => fact.address)]).toEqual(['not-shown', [address]]);
      expect(finding.observed).toContain('not on record');
    }
  });

  it.each(ROWS)('$id is not shown where a fact or figure is only announced', (row) => {
    for (const check of row.checks) {
      const address = addressOf(check);
      if (address === undefined) continue;
      const finding = look(row, { [`${address}/standing`]: 'announced' });
      expect([finding.state, finding.observed.includes('only announced')]).toEqual(['not-shown', true]);
    }
  });

  it('every fact and figure of the record is asked for by some row', () => {
    const asked = new Set(
      allChecks(ROWS.flatMap(({ checks, when = [] }) => [...checks, ...when])).flatMap(
        (check) => addressOf(check) ?? [],
      ),
    );
    const inCode = [
      'external-card-slot',
      'sealed-portable-battery',
      'power-button-presses',
      'volume-button-presses',
      'port-cycles',
    ];
    const names = [
      ...DUTY_FACTS.map((name) => `product/facts/${name}`),
      ...Object.keys(DUTY_FIGURES).map((name) => `product/figures/${name}`),
    ];
    expect(names.filter((name) => !asked.has(name) && !inCode.some((known) => name.endsWith(known)))).toEqual([]);
  });
});
