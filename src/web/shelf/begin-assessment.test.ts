import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import { type Assessment, assessment as assessmentSchema } from '#record/schema/assessment';
import { checkAssessment } from '#record/validate/check-assessment';
import { assessmentKey } from './assessment-key.ts';
import { beginFromNothing, beginFromPredecessor, beginFromStructure } from './begin-assessment.ts';

const read = (name: string): Assessment => {
  const bytes = readFileSync(new URL(`../../../examples/${name}/assessment.yaml`, import.meta.url));
  return readAssessment({ fileName: 'assessment.yaml', bytes }).assessment as Assessment;
};
const examples = ['tarn-4', 'tarn-5', 'beck-11', 'gust-2'].map((name) => [name, read(name)] as const);
const errorsOf = (document: Assessment) => checkAssessment(document).filter(({ severity }) => severity === 'error');

test('beginFromNothing knows the product and nothing else, trimmed', () => {
  const begun = beginFromNothing({ name: ' Tarn 6 ', maker: ' ', category: 'smartphone' });
  expect(begun).toEqual({
    format: 'unfasten/assessment',
    version: 1,
    product: { name: 'Tarn 6', category: 'smartphone' },
  });
  expect(errorsOf(begun)).toEqual([]);
});

test.each(examples)('beginFromPredecessor keeps the structure of %s and nothing that was established', (name, old) => {
  const begun = beginFromPredecessor({ name: 'Next' }, old, name);
  expect(assessmentSchema.safeParse(begun).success).toBe(true);
  expect(errorsOf(begun)).toEqual([]);
  expect(Object.keys(begun.parts ?? {})).toEqual(Object.keys(old.parts ?? {}));
  expect(Object.keys(begun.fasteners ?? {})).toEqual(Object.keys(old.fasteners ?? {}));
  expect(begun.product.predecessor).toBe(name);
  expect(begun.product.category).toBe(old.product.category);
  const gone = ['sessions', 'procedures', 'supply', 'spares', 'specimens', 'damage', 'evidence', 'decisions', 'swaps'];
  expect(gone.filter((field) => field in begun)).toEqual([]);
  const text = JSON.stringify([begun.parts, begun.fasteners]);
  const facts = [
    'trials',
    'behind',
    'requires',
    'odds',
    'takes',
    'evidence',
    'source',
    'mass',
    'putBack',
    'serialised',
  ];
  expect(facts.filter((field) => text.includes(`"${field}":`))).toEqual([]);
});

test('beginFromPredecessor keeps in which order things came off, and no other beginning does', () => {
  const old = read('tarn-4');
  const begun = beginFromPredecessor({ name: 'Next' }, old, 'tarn-4');
  const order = begun.product.predecessorOrder ?? [];
  expect(order.length).toBeGreaterThan(10);
  expect(order.filter((key) => !(begun.parts?.[key] ?? begun.fasteners?.[key]))).toEqual([]);
  expect(order.indexOf('battery-connector')).toBeLessThan(order.indexOf('battery'));
  expect(beginFromStructure({ name: 'Next' }, old).product.predecessorOrder).toBeUndefined();
});

test('beginFromPredecessor keeps the ways of a fastener with their actions, tools and class', () => {
  const old = read('tarn-5');
  const begun = beginFromPredecessor({ name: 'Tarn 6' }, old, 'tarn-5');
  for (const [key, { ways }] of Object.entries(old.fasteners ?? {})) {
    const kept = begun.fasteners?.[key]?.ways;
    expect(Object.keys(kept ?? {})).toEqual(Object.keys(ways ?? {}));
    for (const [way, { actions, leaves }] of Object.entries(ways ?? {})) {
      expect(kept?.[way]?.leaves).toBe(leaves);
      expect(kept?.[way]?.actions.map((action) => [action.do, action.tools])).toEqual(
        actions.map((action) => [action.do, action.tools]),
      );
    }
  }
});

test('beginFromStructure names no predecessor and does not take over the category or that a product is invented', () => {
  const begun = beginFromStructure({ name: 'Other', category: 'laptop' }, read('tarn-5'));
  expect([begun.product.predecessor, begun.product.category, begun.invented]).toEqual([undefined, 'laptop', undefined]);
});

test('assessmentKey makes an id of any name and numbers what is taken', () => {
  const taken = new Set(['tarn-5', 'tarn-5-2']);
  expect(assessmentKey('Tarn 5', taken)).toBe('tarn-5-3');
  expect(assessmentKey('  Ébène / 7” ', taken)).toBe('ebene-7');
  expect(assessmentKey('🔧🔩', taken)).toBe('assessment');
  expect(assessmentKey('x'.repeat(500), taken)).toHaveLength(60);
});
