import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { role } from '#record/schema/basics';
import { category } from '#record/schema/product';
import { DUTY_TABLES } from './duty-tables.ts';
import { DUTY_MARK_WORDS } from './duty-words.ts';

const folder = new URL('../../../references/duties/', import.meta.url);
const files = readdirSync(folder).sort();
const tables = files.map((name) => ({ name, table: parse(readFileSync(new URL(name, folder), 'utf8')) }));
const byLaw = (list: readonly { readonly law: string }[]) => [...list].sort((a, b) => (a.law < b.law ? -1 : 1));
const rows = DUTY_TABLES.flatMap((table) => table.rows.map((row) => ({ ...row, table })));

describe('references/duties', () => {
  it('is what the table of the code was made from; else run tools/duty-tables.ts', () => {
    expect(byLaw(DUTY_TABLES)).toEqual(byLaw(tables.map(({ table }) => table)));
  });

  it.each(tables)('$name names title, identifier and source, and says whether it was read', ({ table }) => {
    for (const field of ['title', 'identifier', 'source', 'note', 'short', 'jurisdiction'])
      expect([field, typeof table[field]]).toEqual([field, 'string']);
    expect(`${table.source} ${table.note}`).toMatch(/\bread\b/);
  });

  it.each(rows)('$id has a clause, a source, a known mark, products and parts that the record knows', (row) => {
    expect(row.clause).not.toBe('');
    expect(row.source ?? row.table.source).not.toBe('');
    expect(Object.keys(DUTY_MARK_WORDS)).toContain(row.mark);
    const products = row.products ?? row.table.products;
    if (products !== 'any') for (const product of products ?? ['none']) expect(category.options).toContain(product);
    if (row.parts !== 'any') for (const part of row.parts) expect(role.options).toContain(part);
  });

  it.each(rows)('$id has days that are days, and holds from one of them', (row) => {
    const dates = row.dates ?? row.table.dates ?? [];
    expect(dates.length).toBeGreaterThan(0);
    for (const { from, after, fromFor = {} } of dates)
      for (const day of [from ?? after, ...Object.values(fromFor)])
        expect(new Date(`${day}T00:00:00Z`).toISOString().slice(0, 10)).toBe(day);
  });

  it('a row of the USA or of the common charger is never marked as read in the text of the law', () => {
    const unread = rows.filter(({ table }) => table.jurisdiction !== 'EU' || table.law === 'eu-2014-53');
    expect(unread.length).toBeGreaterThan(10);
    expect(unread.filter(({ mark }) => mark === 'read')).toEqual([]);
  });

  it('a row is marked as read only where nothing it rests on comes from elsewhere', () => {
    const partly = rows.filter(({ mark, source = '' }) => mark === 'read' && /secondary|memory|summar/.test(source));
    expect(partly.map(({ id }) => id)).toEqual([]);
  });

  it('every row whose text was not read is shown with words that say so', () => {
    for (const mark of ['summary', 'secondary', 'memory'] as const)
      expect(DUTY_MARK_WORDS[mark]).toMatch(/^text not read/);
    expect(DUTY_MARK_WORDS.memory).toContain('editable default');
  });
});
