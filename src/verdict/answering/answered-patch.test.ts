import { expect, test } from 'vitest';
import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { answeredPatch, replacedSources } from './answered-patch.ts';

const bare = { format: 'unfasten/assessment', version: 1, product: { name: 'Tarn 5' } } as Assessment;
const given = { by: 'M. R.', on: '2026-10-07', evidence: ['terms'] };
const answer = (patch: Patch) => ({ questions: ['q/1'], says: 'it is so', patch });

test('answeredPatch puts the source beside the fact, in the stead of the older one', () => {
  const old = { years: 7, standing: 'announced', source: 'press text', evidence: ['clip'], note: 'heard' };
  const record = { ...bare, supply: { software: { security: old } } } as Assessment;
  const path = '/supply/software/security';
  const patch: Patch = [{ op: 'add', path, value: { ...old, standing: 'established' } }];
  const source = { source: 'M. R.', date: '2026-10-07', evidence: ['terms'] };
  const written = [{ op: 'add', path, value: { years: 7, standing: 'established', ...source } }];
  expect(answeredPatch(record, answer(patch), given)).toEqual(written);
  const place = 'supply/software/security';
  expect(replacedSources(record, patch)).toEqual([{ place, source: 'press text', evidence: ['clip'], note: 'heard' }]);
});

test('answeredPatch puts the source where the standing is: of a new spare, beside what its kit holds', () => {
  const contents = { fasteners: [], tools: [], standing: 'established' };
  const patch: Patch = [
    { op: 'add', path: '/spares', value: {} },
    { op: 'add', path: '/spares/kit', value: { name: 'kit', replaces: ['battery'], contents } },
  ];
  const [scaffold, written] = answeredPatch(bare, answer(patch), given);
  expect(scaffold).toEqual(patch[0]);
  expect(written).toMatchObject({ value: { name: 'kit', contents: { source: 'M. R.', evidence: ['terms'] } } });
  expect(written).not.toHaveProperty('value.source');
});

test('answeredPatch leaves the source of a known thing alone, and says who and when in a note of a free id', () => {
  const record = {
    ...bare,
    tools: { pin: { name: 'Pin', source: 'catalogue' } },
    notes: { 'answer-q-1': { text: 'older' } },
  } as Assessment;
  const value = { name: 'Pin', source: 'catalogue', onSale: true };
  const written = answeredPatch(record, answer([{ op: 'add', path: '/tools/pin', value }]), {
    ...given,
    at: '2026-10-07T10:00:00+02:00',
    note: 'seen in two shops',
  });
  expect(written).toEqual([
    { op: 'add', path: '/tools/pin', value },
    {
      op: 'add',
      path: '/notes/answer-q-1-2',
      value: {
        text: 'q/1: it is so. Answered on 2026-10-07. Evidence: terms. seen in two shops',
        by: 'M. R.',
        on: '2026-10-07T10:00:00+02:00',
      },
    },
  ]);
});
