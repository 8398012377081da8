import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deviceOf } from '#record/device/device';
import type { Assessment } from '#record/schema/assessment';
import { type BenchThing, benchThings } from './bench-things.ts';
import { ACTION_WORDS } from './lexicon.ts';
import { readLine } from './read-line.ts';

const document: Assessment = {
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn small' },
  tools: { ph000: { name: 'PH000 driver' }, spudger: { name: 'nylon spudger' }, iron: { name: 'heat mat' } },
  parts: {
    'back-cover': { name: 'back cover' },
    battery: { name: 'battery' },
    'speaker-bracket': { name: 'speaker bracket' },
    'speaker-main': { name: 'main speaker' },
    display: { name: 'display' },
  },
  fasteners: {
    'bracket-screws': {
      name: 'speaker bracket screws',
      kind: 'screw',
      count: 3,
      drive: 'PH000',
      between: ['speaker-bracket', 'chassis'],
    },
    'speaker-screws': { name: 'main speaker screws', kind: 'screw', count: 2, between: ['speaker-main', 'chassis'] },
    'battery-flex': { name: 'battery flex', kind: 'connector', between: ['battery', 'chassis'] },
    'lower-tab': { name: 'battery strip, lower tab', kind: 'stretch-release-strip', between: ['battery', 'chassis'] },
    'back-glue': { name: 'back cover adhesive', kind: 'adhesive', between: ['back-cover', 'chassis'] },
  },
};
const things = benchThings(document, deviceOf(document));
const read = (line: string) => readLine(line, things, { off: new Set(), recent: [] });

describe('readLine understands the shorthand of the bench', () => {
  // Common practice, no source.
  it.each([
    ['3 screw ph000 speaker-bracket', { do: 'unscrew', target: 'bracket-screws', tools: ['ph000'] }],
    ['heat 80c 3min rear', { do: 'heat', reach: '80 °C', took: '3 min', place: 'rear' }],
    ['unplug battery flex', { do: 'unplug', target: 'battery-flex' }],
    ['pull lower tab tore', { do: 'pull', target: 'lower-tab', outcome: 'failed', because: 'tore' }],
    ['ipa 4ml lower tab', { do: 'dissolve', target: 'lower-tab', reach: '4 mL' }],
    ['lift battery free', { do: 'lift', target: 'battery', free: ['battery'] }],
    ['fold display aside', { do: 'fold-aside', target: 'display' }],
    ['unscrew 2/3 speaker bracket', { do: 'unscrew', target: 'bracket-screws', outcome: 'partial', did: 2 }],
    ['pry back cover with spudger', { do: 'pry', target: 'back-glue', tools: ['spudger'] }],
    ['turn over', { do: 'turn-over' }],
    ['unscrew bateri flex', { do: 'unscrew' }],
    ['2 screw ph000 speaker-bracket', { do: 'unscrew', target: 'bracket-screws', outcome: 'partial', did: 2 }],
    ['5 screw ph000 speaker-bracket', { do: 'unscrew', note: '(said 5, the set has 3: which?)' }],
    ['dissolve ipa 4ml lower tab', { do: 'dissolve', target: 'lower-tab', reach: '4 mL', note: 'ipa' }],
    ['turn over slowly', { do: 'turn-over', note: 'slowly' }],
    ['heat 80 c 3 min rear', { do: 'heat', reach: '80 °C', took: '3 min', place: 'rear' }],
    ['function test', { do: 'function-test' }],
    ['power on', { do: 'power-on' }],
    ['unscrew speaker bracket with widget', { target: 'bracket-screws', note: 'widget' }],
    ['pull lower tab 3min 5min', { took: '3 min', note: '5min' }],
    ['tore xyz', { outcome: 'failed', because: 'tore', note: 'xyz' }],
  ])('%s', (line, expected) => {
    expect(read(line).naming).toMatchObject(expected);
  });

  // Common practice, no source.
  it.each([
    ['2 of 3 screw ph000 speaker bracket, stripped', { outcome: 'partial', did: 2, because: 'stripped' }],
    ['stripped 2 of 3 screw speaker bracket', { outcome: 'partial', did: 2, because: 'stripped' }],
    ['unscrew 2/3 speaker bracket tore', { outcome: 'partial', did: 2, because: 'tore' }],
    ['unscrew speaker bracket, 2 of 3 came', { outcome: 'partial', did: 2, target: 'bracket-screws' }],
    ['3 of 3 screw speaker bracket', { do: 'unscrew', target: 'bracket-screws' }],
    ['0 of 3 screw speaker bracket, stripped', { outcome: 'failed', because: 'stripped', note: '0 of 3' }],
    ['pull lower tab failed because tab tore', { outcome: 'failed', because: 'tore', note: 'tab tore' }],
    ['pull lower tab failed because tore', { outcome: 'failed', because: 'tore' }],
    [
      'lift battery failed because bracket in the way',
      { outcome: 'failed', because: 'blocked', note: 'bracket in the way' },
    ],
    ['pry back cover failed, it would not let go', { outcome: 'failed', because: 'would-not-let-go' }],
    ['unscrew speaker bracket failed because wrong bit', { outcome: 'failed', because: 'wrong-tool' }],
    [
      'unscrew speaker bracket failed because of paint in the head',
      { outcome: 'failed', because: 'other', note: 'paint in the head', target: 'bracket-screws' },
    ],
    [
      'unscrew 2 of 3 speaker bracket, the last one stripped',
      { outcome: 'partial', did: 2, because: 'stripped', note: 'the last one stripped' },
    ],
    ['lift battery because told to', { do: 'lift', target: 'battery', note: 'because told to' }],
    ['2 screw speaker bracket stripped', { outcome: 'failed', because: 'stripped', note: '(2 of them)' }],
    ['unscrew 7 of 8 speaker bracket', { outcome: 'partial', note: '(said 8, the set has 3: which?)' }],
    ['unscrew 9 of 8 speaker bracket', { do: 'unscrew', note: '9/8' }],
  ])('how it ended, with count and reason: %s', (line, expected) => {
    const { naming, left } = read(line);
    expect(naming).toMatchObject(expected);
    for (const field of ['outcome', 'did', 'because', 'note'] as const)
      expect([field, naming[field]]).toEqual([field, (expected as typeof naming)[field]]);
    expect(left).toBe(naming.note ?? '');
  });

  it('a goal and a pause are orders, and a line without an action is a note', () => {
    expect(read('goal battery').order).toEqual({ kind: 'goal', text: 'battery' });
    expect(read('hold camera card full').order).toEqual({ kind: 'hold', text: 'camera card full' });
    expect(read('it smells of solvent')).toMatchObject({ left: 'it smells of solvent' });
  });

  it('a partial result by itself is said of the last set', () => {
    const hints = { off: new Set<string>(), recent: [], lastSet: { do: 'unscrew' as const, target: 'bracket-screws' } };
    expect(readLine('partial 2/3', benchThings(document, deviceOf(document)), hints).naming).toEqual({
      do: 'unscrew',
      target: 'bracket-screws',
      outcome: 'partial',
      did: 2,
    });
  });

  it('a comment after an order and the words of an incident are kept', () => {
    expect(read('goal battery -- not sure')).toMatchObject({
      order: { kind: 'goal', text: 'battery' },
      naming: { note: 'not sure' },
    });
    expect(read('hold camera -- card full').order?.text).toBe('camera – card full');
    expect(read('incident cell hisses').order).toEqual({ kind: 'incident', text: 'cell hisses' });
  });

  it('a note too long for the record says how much does not fit', () => {
    const { naming, cut } = read('x '.repeat(8000));
    expect([naming.note?.length, cut]).toEqual([10_000, 5999]);
  });

  it('what fits nothing would appear under an id of its own', () => {
    expect(read('unscrew antenna plate')).toMatchObject({
      naming: { do: 'unscrew', target: 'antenna-plate-screws' },
      newTarget: { key: 'antenna-plate-screws', name: 'antenna plate screws' },
    });
  });

  it.each([
    [
      '3 screw ph000 battery',
      'battery-screws',
      { kind: 'screw', count: 3, drive: 'PH000', between: ['battery', 'chassis'] },
    ],
    ['unplug display', 'display-connector', { kind: 'connector', between: ['display', 'chassis'] }],
    ['unplug display flex', 'display-flex', { kind: 'connector', between: ['display', 'chassis'] }],
    ['desolder main speaker lead', 'main-speaker-lead', { kind: 'solder', between: ['speaker-main', 'chassis'] }],
    ['2 unscrew antenna plate', 'antenna-plate-screws', { kind: 'screw', count: 2 }],
    ['lift antenna plate', 'antenna-plate', undefined],
  ])(
    'what is unscrewed, unplugged or desoldered first is a fastener on the part it names: %s',
    (line, key, fastener) => {
      const { newTarget, naming } = readLine(line, things, { off: new Set(), recent: [], isDescribed: true });
      expect([newTarget?.key, newTarget?.fastener]).toEqual([key, fastener]);
      expect(naming).toMatchObject({ target: key });
      expect(naming.note).toBeUndefined();
    },
  );

  it('what fits two things says so and does not choose by id', () => {
    const two = {
      ...document,
      fasteners: {
        ...document.fasteners,
        'lower-tab-b': {
          ...document.fasteners?.['lower-tab'],
          kind: 'stretch-release-strip',
          between: ['battery', 'chassis'],
          name: 'battery strip, upper tab',
        },
      },
    } as Assessment;
    const reading = readLine('pull battery strip', benchThings(two, deviceOf(two)), { off: new Set(), recent: [] });
    expect([
      reading.needsChoice,
      reading.candidates
        .slice(0, 2)
        .map(({ thing }) => thing.key)
        .sort(),
    ]).toEqual([true, ['lower-tab', 'lower-tab-b']]);
    expect(reading.naming.target).toBeUndefined();
    expect(reading.namingFor(reading.candidates[1]?.thing).target).toBe(reading.candidates[1]?.thing.key);
  });
});

describe('readLine meets anything that can be pasted', () => {
  it.each([
    ['<img src=x onerror=alert(1)>'],
    ['ارفع البطارية'],
    ['🔋🔧 unplug battery flex 🎉'],
    ['unplug\t'.repeat(2000)],
    ['__proto__ constructor toString'],
    ['3/0 -- ; //'],
  ])('%.40s', (line) => {
    const reading = read(line);
    expect(Object.values(reading.naming).every((value) => value !== undefined)).toBe(true);
  });

  it('keeps every word of a line in what it understood or in the note', () => {
    const words = fc.constantFrom(
      ...'unscrew lift heat pull failed because 2 of tore, in the way tore stripped partial 3 4 80c 90c 3min 5min 2/3 1/3 spudger widget battery flex zzz rear left free aside 4ml slowly ipa with function turn over'.split(
        ' ',
      ),
    );
    const check = fc.property(fc.array(words, { minLength: 1, maxLength: 7 }), (line) => {
      const { naming, understood, candidates, left, needsChoice } = read(line.join(' '));
      const target = candidates.find(({ thing }) => thing.key === naming.target)?.thing.words ?? [];
      const said = [...understood, left, ...(needsChoice ? [] : target)].join(' ').toLowerCase();
      for (const word of line)
        expect(isSaid(word, said, naming.do), `${word} of "${line.join(' ')}" in "${said}"`).toBe(true);
    });
    fc.assert(check, { numRuns: 3000, seed: 20_261_125 });
  });

  it('never throws, and loses no word of a line it does not understand', () => {
    const check = fc.property(fc.string({ maxLength: 200, unit: 'grapheme' }), (line) => {
      const { naming, order } = read(line);
      if (naming.do === undefined && naming.outcome === undefined && order === undefined && line.trim() !== '')
        expect(naming.note).toBe(line.trim());
    });
    fc.assert(check, { numRuns: 500, seed: 20_261_125 });
  });
});

/** Is a word told again, as it is or as what it means? The word that joins is not. */
const isSaid = (word: string, said: string, action: string | undefined): boolean => {
  const quantity = /^(\d+)(c|min|ml)$/.exec(word);
  const means = ACTION_WORDS[word];
  if (['with', 'because', 'of', 'the'].includes(word) || said.includes(word.replace(',', ''))) return true;
  if (word === 'in' || word === 'way') return said.includes('blocked');
  if (word === 'over' || (means !== undefined && means === action)) return true;
  if (quantity) return said.includes(`${quantity[1]} ${quantity[2] === 'c' ? '°c' : quantity[2]}`);
  return word.endsWith('/3') && said.includes(`${word[0]} came`) && said.includes('3 of them');
};

describe('a bench of which nothing is described yet', () => {
  const known = (...lines: readonly string[]) => {
    const met: BenchThing[] = [];
    for (const line of lines) {
      const { newTarget, naming } = readLine(line, met, { off: new Set(), recent: [] });
      if (!newTarget) continue;
      const isFastener = naming.do !== 'lift';
      const { key, name } = newTarget;
      met.push({
        key,
        name,
        kind: isFastener ? 'fastener' : 'part',
        words: newTarget.name.split(' '),
        ...(isFastener ? { fastener: { kind: 'other', count: 1 } } : {}),
      });
    }
    return met.map(({ name }) => name);
  };

  it.each([
    [
      ['unplug battery flex', 'lift battery free'],
      ['battery flex', 'battery'],
    ],
    [
      ['pull lower tab', 'pull upper tab', 'pull lower tab'],
      ['lower tab', 'upper tab'],
    ],
    [
      ['3 screw ph000 speaker bracket', 'lift speaker bracket'],
      ['speaker bracket screws', 'speaker bracket'],
    ],
    [['pry rear cover', 'pry rear cover'], ['rear cover']],
  ])('%j are as many things as were meant', (lines, names) => {
    expect(known(...lines)).toEqual(names);
  });

  it('how many there were and their drive are kept though no field holds them yet', () => {
    expect(readLine('3 screw ph000 speaker bracket', [], { off: new Set(), recent: [] }).naming.note).toBe(
      '(3 of them) ph000',
    );
  });
});
