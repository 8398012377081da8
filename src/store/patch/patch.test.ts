import fc from 'fast-check';
import { expect, test } from 'vitest';
import { overlap, pointerOf } from '#record/patch/json-pointer';
import { meetingPlaces } from '#record/patch/meeting-places';
import type { Json, Operation } from '#record/patch/operation';
import { writtenPlaces } from '#record/patch/written-places';
import { shapeProblems } from '#record/read/shape-problems';
import { seedRecord } from '../../../test/faults/seed-record.ts';
import { SeededRandom } from '../../../test/faults/seeded-random.ts';
import { share } from '../../../test/share.ts';
import { AT } from '../../../test/store-fixtures.ts';
import { canonicalJson } from '../canonical-json.ts';
import type { ChangeRequest } from '../ledger.ts';
import { storeLimits } from '../store-limits.ts';
import { applyPatch } from './apply-patch.ts';
import { invertPatch } from './invert-patch.ts';
import { checkChangeHead, readPatch } from './read-change.ts';
import { shapeFaults } from './touched-shape.ts';

const request = (patch: unknown): ChangeRequest => ({
  assessment: 'tarn-5',
  change: '2b6f0cc9-6c3e-4b0e-8f4e-0d5c4d1f2a3b',
  author: 'J. K.',
  at: AT,
  base: 1,
  patch: patch as readonly Operation[],
});

const faultsOf = (work: () => unknown): readonly string[] => {
  try {
    work();
    return [];
  } catch (error) {
    return (error as { details: { faults: readonly { message: string }[] } }).details.faults.map(
      ({ message }) => message,
    );
  }
};

/** Every place of a document that keys can name. */
const placesOf = (value: unknown, keys: readonly string[] = []): readonly (readonly string[])[] => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return [keys];
  return [keys, ...Object.entries(value).flatMap(([key, inner]) => placesOf(inner, [...keys, key]))];
};

const VALUES: readonly Json[] = [
  'text',
  7,
  true,
  [],
  ['cover'],
  {},
  { name: 'x' },
  { at: 5, do: 'pry' },
  null,
  '12 g',
  'smartphone',
];

/** A patch of some operations on places that are there, or are not. */
const randomPatch = (document: unknown, random: SeededRandom): readonly Operation[] => {
  const places = placesOf(document).filter((place) => place.length > 0);
  const place = () => {
    const keys = random.pick(places);
    return pointerOf(random.below(3) === 0 ? [...keys.slice(0, -1), `new-${random.below(4)}`] : keys);
  };
  return Array.from({ length: 1 + random.below(5) }, (): Operation => {
    const kind = random.below(6);
    if (kind === 0) return { op: 'remove', path: place() };
    if (kind === 1) return { op: 'move', from: place(), path: place() };
    if (kind === 2) return { op: 'copy', from: place(), path: place() };
    return { op: kind === 3 ? 'replace' : 'add', path: place(), value: random.pick(VALUES) };
  });
};

test('the shape looked at along the written places says what the whole document says', () => {
  const verdicts = { fits: 0, breaks: 0 };
  for (let seed = 1; seed <= share(400, 20_000); seed += 1) {
    const document = seedRecord();
    // One operation alone fits often enough; several hardly ever do.
    const patch = randomPatch(document, new SeededRandom(seed)).slice(0, seed % 4 === 0 ? 5 : 1);
    const applied = applyPatch(document, patch);
    if (applied.faults.length > 0) continue;
    const along = shapeFaults(applied.document, patch.flatMap(writtenPlaces)).map(({ path }) => path);
    const whole = shapeProblems(applied.document).map(({ path }) => path.join('/'));
    expect(along, `seed ${seed}`).toEqual(whole);
    verdicts[whole.length === 0 ? 'fits' : 'breaks'] += 1;
  }
  expect([verdicts.fits > 20, verdicts.breaks > 100]).toEqual([true, true]);
});

test('the inverse of any patch that applies gives the document back, and leaves the one given alone', () => {
  let applied = 0;
  for (let seed = 1; seed <= share(400, 20_000); seed += 1) {
    const document = seedRecord();
    const before = canonicalJson(document);
    const patch = randomPatch(document, new SeededRandom(seed));
    const { document: after, faults } = applyPatch(document, patch);
    expect(canonicalJson(document), `seed ${seed}`).toBe(before);
    if (faults.length > 0) continue;
    const back = applyPatch(after, invertPatch(document, patch));
    expect([back.faults, back.failedTests, canonicalJson(back.document)], `seed ${seed}`).toEqual([[], [], before]);
    applied += 1;
  }
  expect(applied).toBeGreaterThan(100);
});

test('two patches that do not meet give the same document in either order', () => {
  let merged = 0;
  for (let seed = 1; seed <= share(400, 20_000); seed += 1) {
    const document = seedRecord();
    const random = new SeededRandom(seed);
    const [mine, theirs] = [randomPatch(document, random), randomPatch(document, random)];
    if (meetingPlaces(mine, theirs).length > 0 || meetingPlaces(theirs, mine).length > 0) continue;
    const both = (first: readonly Operation[], second: readonly Operation[]) => {
      const half = applyPatch(document, first);
      const whole = applyPatch(half.document, second);
      return half.faults.length + whole.faults.length > 0 ? undefined : canonicalJson(whole.document);
    };
    expect(both(mine, theirs), `seed ${seed}`).toBe(both(theirs, mine));
    merged += 1;
  }
  expect(merged).toBeGreaterThan(50);
});

test('meetingPlaces finds what comparing every pair of places finds', () => {
  const key = fc.constantFrom('a', 'b', 'c/d', 'e~f');
  const operation = fc.record({
    op: fc.constant('add' as const),
    path: fc.array(key, { minLength: 1, maxLength: 4 }).map(pointerOf),
    value: fc.constant(1),
  });
  fc.assert(
    fc.property(fc.array(operation), fc.array(operation), (mine, theirs) => {
      const slow = mine
        .flatMap(writtenPlaces)
        .filter((place) => theirs.flatMap(writtenPlaces).some((other) => overlap(place, other)));
      expect(meetingPlaces(mine, theirs)).toEqual(slow);
    }),
    { numRuns: share(500, 20_000), seed: 20_261_125 },
  );
});

test.each<[string, unknown]>([
  ['no list', {}],
  ['an empty list', []],
  ['an unknown operation', [{ op: 'append', path: '/a', value: 1 }]],
  ['an operation without its value', [{ op: 'add', path: '/a' }]],
  ['a foreign member', [{ op: 'remove', path: '/a', why: 'x' }]],
  ['a path that is no pointer', [{ op: 'remove', path: 'a' }]],
  ['a bad escape', [{ op: 'remove', path: '/a~2' }]],
  ['the whole document', [{ op: 'replace', path: '', value: {} }]],
  ['a prototype in the path', [{ op: 'add', path: '/__proto__/x', value: 1 }]],
  ['a prototype in a value', JSON.parse('[{ "op": "add", "path": "/a", "value": { "__proto__": 1 } }]')],
  ['half a surrogate pair', [{ op: 'add', path: '/a', value: '\ud800' }]],
  ['a path too deep', [{ op: 'remove', path: '/a'.repeat(storeLimits.pathSegments + 1) }]],
  ['too many operations', Array(storeLimits.operationsPerChange + 1).fill({ op: 'remove', path: '/a' })],
  ['too many bytes', [{ op: 'add', path: '/a', value: 'x'.repeat(storeLimits.changeBytes) }]],
  [
    'maps too deep',
    [
      {
        op: 'add',
        path: '/a',
        value: Array(50)
          .fill(0)
          .reduce<Json>((inner) => ({ inner }), 1),
      },
    ],
  ],
])('a patch with %s is refused with located faults', (_, patch) => {
  expect(faultsOf(() => readPatch(request(patch))).length).toBeGreaterThan(0);
});

test.each<[string, Partial<ChangeRequest>]>([
  ['a key that is no UUID', { change: 'one' }],
  ['no author', { author: '' }],
  ['a time without offset', { at: '2026-10-01T09:00:00' }],
  ['an id with a slash', { assessment: 'a/b' }],
  ['a note too long', { note: 'x'.repeat(storeLimits.noteCharacters + 1) }],
])('a change with %s is refused', (_, wrong) => {
  expect(faultsOf(() => checkChangeHead({ ...request([]), ...wrong })).length).toBe(1);
});
