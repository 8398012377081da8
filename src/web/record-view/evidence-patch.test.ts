import { expect, test } from 'vitest';
import type { Assessment } from '#record/schema/assessment';
import { evidenceOf, evidencePatch, kindOfType } from './evidence-patch.ts';

const empty = { format: 'unfasten/assessment', version: 1, product: { name: 'Tarn 5' } } as Assessment;
const sha256 = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';
const withFile = (file: string): Assessment => ({ ...empty, evidence: { photo1: { kind: 'photo', file } } });
const fileOf = (document: Assessment, name: string) => {
  const { patch } = evidencePatch(document, { sha256, name, kind: 'photo', says: '' });
  const last = patch.at(-1);
  return last && 'value' in last ? (last.value as { file?: string; source?: string }) : {};
};

test('evidencePatch opens the map, and puts kind, words, name and SHA-256 under an id made of the bytes', () => {
  expect(evidencePatch(empty, { sha256, name: 'lid.jpg', kind: 'photo', says: ' the lid ' })).toEqual({
    key: 'photo-ba7816bf8f01',
    patch: [
      { op: 'add', path: '/evidence', value: {} },
      {
        op: 'add',
        path: '/evidence/photo-ba7816bf8f01',
        value: { kind: 'photo', says: 'the lid', file: 'lid.jpg', sha256 },
      },
    ],
  });
  expect(evidencePatch(withFile('a.jpg'), { sha256, name: 'lid.jpg', kind: 'photo', says: '' }).patch).toHaveLength(1);
});

test.each([
  ['../../etc/passwd', '_.._etc_passwd'],
  ['..\\..\\autorun.inf', '_.._autorun.inf'],
  ['<script>alert(1)</script>.jpg', '_script_alert(1)__script_.jpg'],
  ['a\u202egpj.exe', 'a_gpj.exe'],
  [' trailing. ', 'trailing'],
  [`${'x'.repeat(300)}.mp4`, `${'x'.repeat(116)}.mp4`],
])('evidencePatch keeps %j as a name that leads nowhere, and how it came as its source', (name, plain) => {
  expect(fileOf(empty, name)).toMatchObject({ file: plain, source: `file “${name}”` });
});

test('evidencePatch keeps letters of every script, and gives no name where none is left', () => {
  expect(fileOf(empty, 'مختبر 🔧.jpg')).toEqual({ kind: 'photo', file: 'مختبر 🔧.jpg', sha256 });
  expect(fileOf(empty, '...').file).toBe(undefined);
});

test('evidencePatch gives a second file of one name a name of its own, so that none overwrites the other', () => {
  expect(fileOf(withFile('IMG_0001.JPG'), 'img_0001.jpg').file).toBe('img_0001-ba7816bf8f01.jpg');
});

test('evidenceOf finds bytes that are on record', () => {
  expect(evidenceOf({ ...empty, evidence: { lid: { kind: 'photo', sha256 } } }, sha256)).toBe('lid');
  expect(evidenceOf(empty, sha256)).toBe(undefined);
});

test('kindOfType goes by the media type', () => {
  expect(['image/jpeg', 'video/mp4', 'application/pdf', ''].map(kindOfType)).toEqual([
    'photo',
    'video',
    'document',
    'document',
  ]);
});
