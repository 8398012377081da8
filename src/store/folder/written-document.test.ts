import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Json, Operation } from '#record/patch/operation';
import { parseYaml } from '#record/read/parse-yaml';
import { seedRecord } from '../../../test/faults/seed-record.ts';
import { SeededRandom } from '../../../test/faults/seeded-random.ts';
import { share } from '../../../test/share.ts';
import { applyPatch } from '../patch/apply-patch.ts';
import { writtenDocument } from './written-document.ts';

const file = (text: string, name = 'assessment.yaml') => ({ name, bytes: Buffer.from(text) });

const TEXT = `# What this is
format: unfasten/assessment
version: 1 # of the format
product:
  # the model
  name: Tarn 5 # as printed
  note: |
    two
    lines

parts:
  # from the back
  cover: { role: back-cover, mass: 12.5 g } # glass
  battery:
    role: battery
    behind: [[cover]]
  frame: { role: frame }
  # after this nothing

claims:
  c1:
    says: opens cold

notes: {}
`;

const written = (patch: readonly Operation[]) => {
  const { document } = applyPatch(parseYaml(TEXT).data, patch);
  const { bytes, manner } = writtenDocument(document, file(TEXT));
  return { text: bytes.toString(), manner };
};

test('an unchanged document is the imported file, byte for byte', () => {
  expect(written([])).toEqual({ text: TEXT, manner: 'as-imported' });
});

const add = (path: string, value: Json): Operation => ({ op: 'add', path, value });
const remove = (path: string): Operation => ({ op: 'remove', path });

const edits: readonly { readonly what: string; operation: Operation; before: string; after: string }[] = [
  {
    what: 'a scalar set',
    operation: add('/product/name', 'Tarn 6'),
    before: 'name: Tarn 5 #',
    after: 'name: Tarn 6 #',
  },
  { what: 'a block text set', operation: add('/product/note', 'one'), before: '|\n    two\n    lines', after: 'one' },
  {
    what: 'a field added in a line',
    operation: add('/parts/cover/name', 'Lid'),
    before: 'g }',
    after: 'g, name: Lid }',
  },
  {
    what: 'a field added in a block',
    operation: add('/product/maker', 'Fellside'),
    before: 'lines\n',
    after: 'lines\n  maker: Fellside\n',
  },
  {
    what: 'an item added to an empty map',
    operation: add('/notes/n1', { text: 'dry' }),
    before: 'notes: {}',
    after: 'notes: { n1: { text: dry } }',
  },
  { what: 'a list set', operation: add('/parts/battery/behind', []), before: '[[cover]]', after: '[]' },
  {
    what: 'a field removed from a line',
    operation: remove('/parts/cover/role'),
    before: 'role: back-cover, ',
    after: '',
  },
  { what: 'a last field removed', operation: remove('/parts/cover/mass'), before: ', mass: 12.5 g', after: '' },
  { what: 'a field removed', operation: remove('/parts/battery/role'), before: '    role: battery\n', after: '' },
  {
    what: 'an item with a block added',
    operation: add('/claims/c2', { says: 'stays whole' }),
    before: 'opens cold\n',
    after: 'opens cold\n  c2:\n    says: stays whole\n',
  },
  {
    what: 'a collection added at the end',
    operation: add('/title', 'T'),
    before: 's: {}\n',
    after: 's: {}\ntitle: T\n',
  },
];

test.each(edits)('$what: only that place differs, comments stay', ({ operation, before, after }) => {
  expect(TEXT.split(before)).toHaveLength(2);
  expect(written([operation])).toEqual({ text: TEXT.replace(before, after), manner: 'edited' });
});

test('several fields of one line change together: only that line differs', () => {
  const patch = [remove('/parts/cover/mass'), add('/parts/cover/name', 'Lid'), add('/parts/cover/face', 'back')];
  const line = 'cover: { role: back-cover, mass: 12.5 g } # glass';
  const after = 'cover: { face: back, name: Lid, role: back-cover } # glass';
  const { text, manner } = written(patch);
  expect([manner, text.split('\n').filter((other, index) => other !== TEXT.split('\n')[index])]).toEqual([
    'edited',
    [expect.stringContaining('# glass')],
  ]);
  expect(parseYaml(text).data).toEqual(parseYaml(TEXT.replace(line, after)).data);
});

test('an edit through an alias is rewritten, and says so', () => {
  const text = TEXT.replace('battery:\n', 'battery: &b\n').replace('notes: {}', 'notes: {}\nmeasures: *b');
  const document = structuredClone(parseYaml(text).data) as { parts: { battery: { role: string } } };
  document.parts.battery.role = 'display';
  const { manner, bytes } = writtenDocument(document, file(text));
  expect(['edited', 'as-imported']).not.toContain(manner);
  expect(parseYaml(bytes.toString()).data).toEqual(document);
});

test('a JSON file keeps its layout', () => {
  const text = `${JSON.stringify(seedRecord(), undefined, 2)}\n`;
  const document = seedRecord() as { title: string; notes: Record<string, unknown> };
  document.title = 'Tarn 5, "long"';
  document.notes.n2 = { text: 'damp air' };
  const { bytes, manner } = writtenDocument(document, file(text, 'assessment.json'));
  const expected = text
    .replace('"Tarn 5, short"', '"Tarn 5, \\"long\\""')
    .replace(/(\n {4}"n1": \{[^}]*\})/, '$1,\n    "n2": {"text":"damp air"}');
  expect([manner, bytes.toString()]).toEqual(['edited', expected]);
});

test('without a file it is written in the order of the schema, the log in the order of time', () => {
  const document = seedRecord();
  const { bytes, name, manner } = writtenDocument(document, undefined);
  expect([name, manner, parseYaml(bytes.toString()).data]).toEqual(['assessment.yaml', 'fresh', document]);
  expect(bytes.toString().indexOf('format:')).toBe(0);
});

/** Takes away, replaces or adds a member somewhere in a document. */
const mutate = (value: Record<string, unknown>, random: SeededRandom): void => {
  const keys = Object.keys(value);
  const key = random.pick(keys);
  const inner = value[key];
  if (
    typeof inner === 'object' &&
    inner !== null &&
    !Array.isArray(inner) &&
    random.below(4) > 0 &&
    Object.keys(inner).length > 0
  ) {
    mutate(inner as Record<string, unknown>, random);
    return;
  }
  const kind = random.below(3);
  if (kind === 0 && keys.length > 1) delete value[key];
  else if (kind === 1)
    value[key] = random.pick<unknown>([
      'plain',
      '# no comment',
      'two\nlines',
      7,
      [],
      ['a'],
      { a: 1 },
      ': x',
      '',
      'null',
      '2026-01-02',
    ]);
  else
    value[`new-${random.below(9)}`] = random.pick<unknown>([
      'x: y',
      { deep: { er: [1] } },
      '- z',
      3.5,
      "it's",
      '{',
      '\t',
    ]);
};

test.each(['tarn-4', 'gust-2', 'quick-log'])('random edits of %s read back as they were meant', (name) => {
  const text = readFileSync(new URL(`../../../examples/${name}/assessment.yaml`, import.meta.url), 'utf8');
  const manners: Record<string, number> = {};
  for (let seed = 1; seed <= share(25, 2_000); seed += 1) {
    const random = new SeededRandom(seed);
    const document = structuredClone(parseYaml(text).data) as Record<string, unknown>;
    for (let count = 0; count <= random.below(4); count += 1) mutate(document, random);
    const { bytes, manner } = writtenDocument(document, file(text));
    expect(parseYaml(bytes.toString()).data, `seed ${seed}`).toEqual(document);
    manners[manner] = (manners[manner] ?? 0) + 1;
  }
  // Most edits leave the rest of the file alone; what cannot be spliced is rewritten, never lost.
  expect(manners.fresh ?? 0).toBe(0);
  expect(manners.rewritten ?? 0).toBeLessThan((manners.edited ?? 0) / 10);
});
