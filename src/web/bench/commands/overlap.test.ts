import { describe, expect, it } from 'vitest';
import type { Patch } from '#record/patch/operation';
import type { Assessment, Session } from '#record/schema/assessment';
import { checkAssessment } from '#record/validate/check-assessment';
import { applyPatch } from '../../ledger/apply-patch.ts';
import { liveReadout } from '../live/live-readout.ts';
import { enterAction, nameEntry, undoLast, withdrawEntry } from './bench-patches.ts';
import { openOverlaps, startOverlap, stopOverlap } from './overlap-patches.ts';

const bare: Assessment = {
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn small' },
  specimens: { a: {} },
  parts: { lid: { name: 'lid' } },
  fasteners: { glue: { name: 'lid glue', kind: 'adhesive', between: ['lid', 'chassis'] } },
  sessions: {
    s: { kind: 'measured', specimen: 'a', start: '2026-03-02T09:00:00+01:00', startsAs: 'complete', entries: {} },
  },
};
const changed = (document: Assessment, patch: Patch): Assessment => {
  const applied = applyPatch(document, patch);
  if (!applied.fits) throw new Error(applied.why);
  return applied.document;
};
const at = (document: Assessment) => ({ document, session: 's' });
const undone = (document: Assessment): Assessment => changed(document, undoLast(at(document)));
const lines = (document: Assessment) => liveReadout(document, 's', undefined).log.map(({ words }) => words);
const goingOn = (document: Assessment) => openOverlaps(document.sessions?.s as Session);
const stop = (document: Assessment, key: string, seconds: number): Assessment =>
  changed(
    document,
    stopOverlap(at(document), goingOn(document)[0]?.[0] ?? '', { key, at: seconds, naming: { do: 'heat' } }),
  );

/** A heat from 10 to 60 s, and a lift beside it at 30 s. */
const begun = changed(bare, startOverlap(at(bare), { key: 'e1', at: 10, place: 'rear' }));
const beside = changed(
  begun,
  enterAction(at(begun), { key: 'e2', at: 30, do: 'lift', target: 'lid', naming: 'by-hand' }),
);
const ended = stop(beside, 'e3', 60);

describe('undoing a heat that was ended', () => {
  it('takes the end back first: it goes on again from its own beginning, and is shown so', () => {
    expect(lines(ended)).toEqual(['lift lid', 'heat rear']);
    expect(goingOn(ended)).toEqual([]);
    const back = undone(ended);
    expect(lines(back)).toEqual(['going on, rear', 'lift lid']);
    expect(goingOn(back).map(([, { began, place }]) => [began, place])).toEqual([[10, 'rear']]);
  });

  it('then what was done beside it, then the whole, in the order in which they were said', () => {
    const twice = undone(undone(ended));
    expect(lines(twice)).toEqual(['going on, rear']);
    const thrice = undone(twice);
    expect(lines(thrice)).toEqual([]);
    expect(undoLast(at(thrice))).toEqual([]);
    for (const document of [ended, undone(ended), twice, thrice])
      expect(checkAssessment(document).filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('it can be ended and taken back again and again', () => {
    const again = stop(undone(ended), 'e4', 90);
    expect(lines(again)).toEqual(['lift lid', 'heat rear']);
    const stood = again.sessions?.s?.entries.e4;
    expect([stood?.began, stood?.at, stood?.ends]).toEqual([10, 90, 'e1']);
    const onceMore = stop(undone(again), 'e5', 95);
    expect(lines(undone(onceMore))).toEqual(['going on, rear', 'lift lid']);
  });

  it('a correction of the ended heat is taken back before its end', () => {
    const told = changed(ended, nameEntry(at(ended), 'e3', { do: 'heat', target: 'glue' }));
    expect(lines(told)).toEqual(['lift lid', 'heat lid glue']);
    const back = undone(told);
    expect(lines(back)).toEqual(['lift lid', 'heat rear']);
    expect(lines(undone(back))).toEqual(['going on, rear', 'lift lid']);
  });

  it('taking the mark back while the heat goes on leaves nothing of it', () => {
    expect(lines(changed(begun, withdrawEntry(at(begun), 'e1')))).toEqual([]);
  });
});
