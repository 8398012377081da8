// Source: RFC 6902, "JavaScript Object Notation (JSON) Patch", April 2013, appendix A (examples A.1 to A.16), and
// RFC 6901, "JavaScript Object Notation (JSON) Pointer", April 2013, section 5 (the pointers and what they name).
import { expect, test } from 'vitest';
import { pointerOf, readPointer, valueAt } from '#record/patch/json-pointer';
import type { Json, Operation } from '#record/patch/operation';
import { applyPatch } from '#store/patch/apply-patch';

interface Example {
  readonly name: string;
  readonly document: Json;
  readonly patch: readonly Operation[];
  readonly result: Json;
}

/** The examples whose paths name members of maps: the patch gives the document that the appendix prints. */
const examples: readonly Example[] = [
  {
    name: 'A.1 adding an object member',
    document: { foo: 'bar' },
    patch: [{ op: 'add', path: '/baz', value: 'qux' }],
    result: { baz: 'qux', foo: 'bar' },
  },
  {
    name: 'A.3 removing an object member',
    document: { baz: 'qux', foo: 'bar' },
    patch: [{ op: 'remove', path: '/baz' }],
    result: { foo: 'bar' },
  },
  {
    name: 'A.5 replacing a value',
    document: { baz: 'qux', foo: 'bar' },
    patch: [{ op: 'replace', path: '/baz', value: 'boo' }],
    result: { baz: 'boo', foo: 'bar' },
  },
  {
    name: 'A.6 moving a value',
    document: { foo: { bar: 'baz', waldo: 'fred' }, qux: { corge: 'grault' } },
    patch: [{ op: 'move', from: '/foo/waldo', path: '/qux/thud' }],
    result: { foo: { bar: 'baz' }, qux: { corge: 'grault', thud: 'fred' } },
  },
  {
    name: 'A.10 adding a nested member object',
    document: { foo: 'bar' },
    patch: [{ op: 'add', path: '/child', value: { grandchild: {} } }],
    result: { foo: 'bar', child: { grandchild: {} } },
  },
  {
    name: 'A.14 escape ordering of ~01',
    document: { '/': 9, '~1': 10 },
    patch: [{ op: 'test', path: '/~01', value: 10 }],
    result: { '/': 9, '~1': 10 },
  },
];

test.each(examples)('RFC 6902 $name gives the printed document', ({ document, patch, result }) => {
  const before = structuredClone(document);
  expect(applyPatch(document, patch)).toEqual({ document: result, faults: [], failedTests: [] });
  expect(document).toEqual(before);
});

test('RFC 6902 A.9: a test that does not hold is an error, and nothing is applied', () => {
  const patch: readonly Operation[] = [
    { op: 'add', path: '/x', value: 1 },
    { op: 'test', path: '/baz', value: 'bar' },
  ];
  expect(applyPatch({ baz: 'qux' }, patch)).toEqual({
    document: { baz: 'qux' },
    faults: [],
    failedTests: [{ path: '/baz', base: 'bar', head: 'qux' }],
  });
});

test('RFC 6902 A.12: adding to a target that does not exist is an error', () => {
  const { faults } = applyPatch({ foo: 'bar' }, [{ op: 'add', path: '/baz/bat', value: 'qux' }]);
  expect(faults.map(({ message }) => message)).toEqual(['there is no map at this place']);
});

test('RFC 6902 A.15: a number and the text of its digits are not equal', () => {
  const { failedTests } = applyPatch({ '/': 9, '~1': 10 }, [{ op: 'test', path: '/~01', value: '10' }]);
  expect(failedTests).toEqual([{ path: '/~01', base: '10', head: 10 }]);
});

test('RFC 6902 A.8: tests of values that hold change nothing; the one inside a list is our departure', () => {
  const document = { baz: 'qux', foo: ['a', 2, 'c'] };
  expect(applyPatch(document, [{ op: 'test', path: '/baz', value: 'qux' }]).document).toEqual(document);
  expect(applyPatch(document, [{ op: 'test', path: '/foo', value: ['a', 2, 'c'] }]).failedTests).toEqual([]);
});

/**
 * A.2, A.4, A.7, A.8 and A.16 name a place in a list by its number. The ledger refuses those on purpose: after another
 * change the number names another item. The list is replaced as a whole instead.
 */
test.each<{ name: string; operation: Operation }>([
  { name: 'A.2 adding an array element', operation: { op: 'add', path: '/foo/1', value: 'qux' } },
  { name: 'A.4 removing an array element', operation: { op: 'remove', path: '/foo/1' } },
  { name: 'A.7 moving an array element', operation: { op: 'move', from: '/foo/1', path: '/foo/3' } },
  { name: 'A.8 testing an array element', operation: { op: 'test', path: '/foo/1', value: 2 } },
  { name: 'A.16 adding an array value', operation: { op: 'add', path: '/foo/-', value: ['abc', 'def'] } },
])('RFC 6902 $name is refused: paths do not lead into lists', ({ operation }) => {
  const { faults, document } = applyPatch({ foo: ['bar', 2, 'baz', 'x'] }, [operation]);
  expect(faults.map(({ message }) => message)).toEqual(['this path leads into a list']);
  expect(document).toEqual({ foo: ['bar', 2, 'baz', 'x'] });
});

const pointers: readonly (readonly [pointer: string, value: Json])[] = [
  ['/foo', ['bar', 'baz']],
  ['/', 0],
  ['/a~1b', 1],
  ['/c%d', 2],
  ['/e^f', 3],
  ['/g|h', 4],
  ['/i\\j', 5],
  ['/k"l', 6],
  ['/ ', 7],
  ['/m~0n', 8],
];

test.each(pointers)('RFC 6901 section 5: the pointer %j names what is printed', (pointer, value) => {
  const document = {
    foo: ['bar', 'baz'],
    '': 0,
    'a/b': 1,
    'c%d': 2,
    'e^f': 3,
    'g|h': 4,
    'i\\j': 5,
    'k"l': 6,
    ' ': 7,
    'm~n': 8,
  };
  const keys = readPointer(pointer) ?? [];
  expect([valueAt(document, keys), pointerOf(keys)]).toEqual([value, pointer]);
});
