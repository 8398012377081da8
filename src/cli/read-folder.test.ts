import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { describeError, isUnfastenError } from '#quantity/unfasten-error';
import { requireAssessment } from './read-folder.ts';

let folder: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'unfasten-read-folder-'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What does a command say that needs this record? */
const saidOf = (record: object): string => {
  const path = join(folder, 'assessment.json');
  writeFileSync(path, JSON.stringify({ format: 'unfasten/assessment', version: 1, ...record }));
  try {
    requireAssessment(path);
    return 'fine';
  } catch (error) {
    if (!isUnfastenError(error)) throw error;
    return describeError(error).slice(path.length + 1);
  }
};

const within = (id: string) => ({ product: { name: 'Tarn 5' }, parts: { cell: { within: id } }, fasteners: {} });

describe('requireAssessment, the value of the first problem', () => {
  test.each<readonly [string, object, string]>([
    ['a text', within('nowhere'), '(found "nowhere")'],
    ['a text with quotation marks', { product: { name: 'Tarn 5', category: 'a "b"' } }, String.raw`(found "a \"b\"")`],
    ['a number', { product: { name: 4 } }, '(found 4)'],
    ['nothing', {}, '(found nothing)'],
    ['no value', { product: { name: null } }, '(found null)'],
    ['a list', { product: { name: ['a'] } }, '(found ["a"])'],
  ])('%s is quoted once', (_name, record, expected) => {
    expect(saidOf(record)).toContain(expected);
  });

  test('a long text is shown by its beginning, also where an escape is cut', () => {
    const long = (category: string): string | undefined =>
      /\(found (.*?)\)\. /.exec(saidOf({ product: { name: 'Tarn 5', category } }))?.[1];
    expect(long('x'.repeat(500))).toBe(`"${'x'.repeat(79)}…"`);
    expect(long(`x${'"'.repeat(500)}`)).toBe(`"x${String.raw`\"`.repeat(39)}…"`);
    expect(long(`${'x'.repeat(76)}${'\u0001'.repeat(100)}`)).toBe(`"${'x'.repeat(76)}…"`);
  });
});

test('requireAssessment reads a chain of parts within parts up to the limit and refuses a longer one where it begins', () => {
  const chain = (length: number) => ({
    product: { name: 'Tarn 5' },
    parts: Object.fromEntries(
      Array.from({ length }, (_, index) => [`p${index}`, index + 1 < length ? { within: `p${index + 1}` } : {}]),
    ),
  });
  expect(saidOf(chain(32))).toBe('fine');
  expect(saidOf(chain(70))).toMatch(
    /^1:\d+ parts\/p0\/within: parts carry one another in a longer chain .*\(limit carriers: 32\) \(found "p1"\)\. Name /,
  );
});
