import { expect, it } from 'vitest';
import { type Assessment, assessment } from '#record/schema/assessment';
import { checkAssessment } from '#record/validate/check-assessment';
import { applyPatch } from '../../ledger/apply-patch.ts';
import { enterAction } from './bench-patches.ts';
import { newThing, newThings } from './new-thing.ts';

const bare: Assessment = {
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn small' },
  specimens: { a: {} },
  sessions: {
    s: { kind: 'measured', specimen: 'a', start: '2026-03-02T09:00:00+01:00', startsAs: 'complete', entries: {} },
  },
};
const parts = { lid: { name: 'lid' } };
const fasteners = { screws: { kind: 'screw' as const, between: ['lid', 'chassis'] as [string, string] } };
const fresh = { key: 'antenna-plate', name: 'Antenna plate' };

it.each<[string, Assessment]>([
  ['nothing described', bare],
  ['parts described', { ...bare, parts }],
  ['parts and fasteners described', { ...bare, parts, fasteners }],
])('a new thing breaks no record: %s', (_what, document) => {
  for (const action of ['lift', 'unscrew', 'pry', 'heat', 'fit'] as const) {
    const entered = { key: 'e1', at: 10, do: action, target: fresh.key, goal: fresh.key, naming: 'by-hand' as const };
    const patch = [...newThing(document, fresh), ...enterAction({ document, session: 's' }, entered)];
    const applied = applyPatch(document, patch);
    const problems = applied.fits ? checkAssessment(applied.document) : undefined;
    expect(problems?.filter(({ severity }) => severity === 'error')).toEqual([]);
  }
});

it('the name as it was written is kept, and what is there already is left', () => {
  const applied = applyPatch(
    { ...bare, parts, fasteners },
    newThing({ ...bare, parts, fasteners }, { key: 'thing-1', name: 'بطارية' }),
  );
  expect(applied.fits && (applied.document as Assessment).parts?.['thing-1']).toEqual({ name: 'بطارية' });
  expect(newThing({ ...bare, parts, fasteners }, { key: 'lid', name: 'lid' })).toEqual([]);
});

const described: Assessment = { ...bare, parts, fasteners };
const screws = {
  key: 'plate-screws',
  name: 'plate screws',
  fastener: { kind: 'screw' as const, count: 3, drive: 'PH000', between: ['lid', 'chassis'] as [string, string] },
};

it('a fastener is taken in as one, with what it holds; without its ends where nobody said them', () => {
  const { between: _ends, ...unsaid } = screws.fastener;
  for (const fastener of [screws.fastener, unsaid]) {
    const applied = applyPatch(described, newThing(described, { ...screws, fastener }));
    const document = applied.fits ? applied.document : described;
    expect(document.fasteners?.['plate-screws']).toEqual({ name: 'plate screws', ...fastener });
    expect(document.parts).toEqual(parts);
    expect(checkAssessment(document).filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(assessment.safeParse(document).success).toBe(true);
  }
  expect(newThing({ ...bare, parts }, screws)).toEqual([]);
});

it('several of one name are taken in once', () => {
  const document = { ...bare, parts, fasteners };
  const patch = newThings(document, [fresh, fresh, { key: 'shield', name: 'shield' }]);
  expect(patch.map(({ path }) => path)).toEqual(['/parts/antenna-plate', '/parts/shield']);
});

it.each<[string, Assessment]>([
  ['parts described', { ...bare, parts }],
  ['parts and fasteners described', described],
])('a part named for the first time has the role that a log alone would give it: %s', (_what, document) => {
  const applied = applyPatch(document, newThing(document, { key: 'speaker-2', name: 'Speaker 2' }));
  expect(applied.fits && applied.document.parts?.['speaker-2']).toEqual({ name: 'Speaker 2', role: 'speaker' });
});
