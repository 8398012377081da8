// Source: NIST, FIPS 180-4, "Secure Hash Standard", August 2015, and its example values "SHA256.pdf" (one block "abc", two
// blocks "abcdbcde…"), Computer Security Resource Center, Examples with Intermediate Values; the digests are also those of
// FIPS 180-2, appendix B.1 to B.3.
import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { canonicalJson, sha256Hex } from '#store/canonical-json';
import { changeHash } from '#store/chain/change-hash';

test.each([
  ['B.1, one block', 'abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'B.2, two blocks',
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
  [
    'B.3, a million times "a"',
    'a'.repeat(1_000_000),
    'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0',
  ],
])('FIPS 180 example %s has the printed digest', (_, message, digest) => {
  expect(sha256Hex(message)).toBe(digest);
});

test('the hash of a change is the digest of the canonical text that a stranger writes down from the page on the ledger', () => {
  const change = {
    assessment: 'tarn-5',
    revision: 2,
    change: '2b6f0cc9-6c3e-4b0e-8f4e-0d5c4d1f2a3b',
    base: 1,
    patch: [{ op: 'remove', path: '/notes/n1' }],
    author: 'J. K.',
    at: '2026-10-01T09:00:00+02:00',
    received: '2026-10-01T07:00:01.000Z',
    previous: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
  } as const;
  const text =
    '{"assessment":"tarn-5","at":"2026-10-01T09:00:00+02:00","author":"J. K.","base":1,' +
    '"change":"2b6f0cc9-6c3e-4b0e-8f4e-0d5c4d1f2a3b","format":"unfasten/change",' +
    '"patch":[{"op":"remove","path":"/notes/n1"}],' +
    '"previous":"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",' +
    '"received":"2026-10-01T07:00:01.000Z","revision":2,"version":1}';
  expect(changeHash(change)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'));
  expect(canonicalJson({ ...change, format: 'unfasten/change', version: 1 })).toBe(text);
});
