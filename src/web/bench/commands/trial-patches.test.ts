import { expect, it } from 'vitest';
import { deviceOf } from '#record/device/device';
import type { Patch } from '#record/patch/operation';
import { readAssessment } from '#record/read/read-assessment';
import type { Assessment } from '#record/schema/assessment';
import { applyPatch } from '../../ledger/apply-patch.ts';
import { recordTrial, recordUntried } from './trial-patches.ts';

/** A log that names a battery and a loudspeaker, of which the record says nothing else. */
const logged = (): Assessment => ({
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn small' },
  specimens: { a: {} },
  sessions: {
    s: {
      kind: 'measured',
      specimen: 'a',
      start: '2026-03-02T09:00:00+01:00',
      startsAs: 'complete',
      entries: {
        e1: { at: 10, do: 'unscrew', target: 'lid-screws' },
        e2: { at: 20, do: 'pry', target: 'speaker-2', outcome: 'failed' },
        e3: { at: 30, do: 'pull', target: 'battery', outcome: 'failed' },
      },
    },
  },
});
const source = () => ({ document: logged(), device: deviceOf(logged()) });
const seen = { off: ['lid-screws'], specimen: 'a', session: 's' };

/** The roles of the parts, and the problems of the record, once a patch is in it. */
const after = (patch: Patch) => {
  const applied = applyPatch(logged(), patch);
  if (!applied.fits) throw new Error(applied.why);
  const { document } = applied;
  const bytes = Buffer.from(JSON.stringify(document));
  const { problems } = readAssessment({ fileName: 'assessment.json', bytes });
  const roles = Object.fromEntries([...deviceOf(document).parts.values()].map(({ id: key, role }) => [key, role]));
  return { document, roles, errors: problems.filter(({ severity }) => severity !== 'warning') };
};

it('recordTrial keeps the role of a part that only a log names', () => {
  const { document, roles, errors } = after(recordTrial(source(), 'battery', { ...seen, key: 't', came: 'no' }));
  expect(roles).toEqual({ battery: 'battery', 'speaker-2': 'speaker' });
  expect(document.parts?.battery).toEqual({ role: 'battery', trials: { t: { ...seen, came: 'no' } } });
  expect(errors).toEqual([]);
});

it('recordUntried keeps the roles, and every one of several questions waved off at once', () => {
  const questions = ['battery', 'speaker-2'].map((part) => ({ ...seen, key: `t-${part}`, part, stillIn: ['lid'] }));
  const { document, roles, errors } = after(recordUntried(source(), questions));
  expect(roles).toEqual({ battery: 'battery', 'speaker-2': 'speaker' });
  expect(Object.keys(document.parts?.battery?.untried ?? {})).toEqual(['t-battery']);
  expect(Object.keys(document.parts?.['speaker-2']?.untried ?? {})).toEqual(['t-speaker-2']);
  expect(errors.filter(({ kind }) => kind !== 'unknown-reference')).toEqual([]);
  expect(recordUntried(source(), [])).toEqual([]);
});

it('what a part has on record already stays', () => {
  const document: Assessment = { ...logged(), parts: { battery: { name: 'cell', untried: {} } } };
  const of = { document, device: deviceOf(document) };
  expect(recordTrial(of, 'battery', { ...seen, key: 't', came: 'yes' }).map(({ path }) => path)).toEqual([
    '/parts/battery/trials',
    '/parts/battery/trials/t',
  ]);
});
