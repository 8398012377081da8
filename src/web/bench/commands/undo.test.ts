import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { standingEntries } from '#record/standing-entries';
import { checkAssessment } from '#record/validate/check-assessment';
import { applyPatch, meetingPlaces } from '../../ledger/apply-patch.ts';
import * as patches from './bench-patches.ts';

const empty = (): Assessment => ({
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn small' },
  specimens: { a: {} },
  parts: { battery: { name: 'battery' }, lid: { name: 'lid' } },
  sessions: {
    s: { kind: 'measured', specimen: 'a', start: '2026-03-02T09:00:00+01:00', startsAs: 'complete', entries: {} },
  },
});

const after = (document: Assessment, patch: Patch): Assessment => {
  const applied = applyPatch(document, patch);
  if (!applied.fits) throw new Error(applied.why);
  return applied.document;
};
const at = (document: Assessment) => ({ document, session: 's' });
const entered = (document: Assessment, key: string, seconds: number): Assessment =>
  after(
    document,
    patches.enterAction(at(document), {
      key,
      at: seconds,
      do: 'lift',
      target: 'lid',
      naming: 'by-hand',
      goal: 'battery',
    }),
  );
const corrected = (document: Assessment, key: string, note: string): Assessment =>
  after(document, patches.nameEntry(at(document), key, { do: 'lift', target: 'lid', note }));
const undone = (document: Assessment): Assessment => after(document, patches.undoLast(at(document)));
const stands = (document: Assessment): readonly (string | undefined)[] =>
  standingEntries(document.sessions?.s as NonNullable<Assessment['sessions']>[string]).map(
    ([, { note }]) => note ?? '',
  );
const errors = (document: Assessment) => checkAssessment(document).filter(({ severity }) => severity === 'error');

describe('undoing', () => {
  it('a correction lets the original stand again, and undoing once more takes the one before it', () => {
    const two = entered(entered(empty(), 'e1', 10), 'e2', 20);
    const told = corrected(two, 'e1', 'was the lid');
    expect(stands(told)).toEqual(['was the lid', '']);
    const back = undone(told);
    expect(stands(back)).toEqual(['', '']);
    const one = undone(back);
    expect(standingEntries(one.sessions?.s as never).map(([, entry]) => entry.at)).toEqual([10]);
    expect(stands(undone(one))).toEqual([]);
    expect(patches.undoLast(at(undone(one)))).toEqual([]);
    expect(errors(undone(one))).toEqual([]);
  });

  it('takes the latest act and not the latest time', () => {
    const late = entered(entered(empty(), 'e1', 50), 'e2', 20);
    expect(standingEntries(undone(late).sessions?.s as never).map(([key]) => key)).toEqual(['e1']);
  });

  it('two who correct or take back one entry at once meet at one place', () => {
    const one = entered(empty(), 'e1', 10);
    const withdrawn = patches.withdrawEntry(at(one), 'e1');
    const told = patches.nameEntry(at(one), 'e1', { do: 'lift', target: 'battery' });
    expect(meetingPlaces(withdrawn, told)).toHaveLength(1);
    expect(meetingPlaces(withdrawn, withdrawn)).toHaveLength(1);
  });

  it('as often as something was said leaves nothing, and no order of acts breaks the record', () => {
    const acts = fc.array(fc.constantFrom('enter', 'correct', 'undo'), { maxLength: 25 });
    const check = fc.property(acts, (all) => {
      let document = empty();
      const said: string[][] = [];
      for (const [index, act] of all.entries()) {
        if (act === 'enter') {
          document = entered(document, `e${index}`, 100 - index);
          said.push([`e${index}`, '']);
        } else if (act === 'correct' && said.length > 0) {
          const root = said[index % said.length]?.[0] ?? '';
          document = corrected(document, root, `n${index}`);
          said.push([root, `n${index}`]);
        } else if (act === 'undo') {
          document = undone(document);
          said.pop();
        }
        const expected = [...new Map(said.map(([root, note]) => [root, note])).values()].sort();
        expect([...stands(document)].sort()).toEqual(expected);
      }
      expect(errors(document)).toEqual([]);
    });
    fc.assert(check, { numRuns: 200, seed: 20_261_125 });
  });
});
