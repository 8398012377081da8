import { describe, expect, it } from 'vitest';
import { deviceOf } from '#record/device/device';
import type { Patch } from '#record/patch/operation';
import type { Assessment, Entry } from '#record/schema/assessment';
import { applyPatch } from '../../ledger/apply-patch.ts';
import { markTime, type Naming, nameEntry } from '../commands/bench-patches.ts';
import { recordTrial, recordUntried } from '../commands/trial-patches.ts';
import { liveReadout } from '../live/live-readout.ts';
import { type HeldAct, heldNow } from './held-acts.ts';
import { type LastChance, lastChance } from './last-chance.ts';

const unplugged: Entry = { at: 10, do: 'unplug', target: 'flex' };
const bench = (startsAs: 'complete' | { leftBy: string } = 'complete'): Assessment => ({
  format: 'unfasten/assessment',
  version: 1,
  product: { name: 'Tarn small' },
  specimens: { a: {} },
  parts: {
    battery: { name: 'battery', role: 'battery' },
    bracket: { name: 'bracket' },
    shield: { name: 'shield' },
    plate: { name: 'plate' },
    clip: { name: 'clip', within: 'plate' },
  },
  fasteners: {
    flex: { kind: 'connector', between: ['battery', 'chassis'] },
    screws: { kind: 'screw', between: ['bracket', 'chassis'] },
    glue: { kind: 'adhesive', between: ['shield', 'chassis'], ways: { pry: { actions: [{ do: 'pry' }] } } },
  },
  sessions: {
    s: { kind: 'measured', specimen: 'a', start: '2026-03-02T09:00:00+01:00', startsAs, entries: { e0: unplugged } },
  },
});
const viewOf = (document: Assessment) => ({ document, session: 's', readout: liveReadout(document, 's', undefined) });
const asked = (next: Naming, document = bench()) => lastChance(viewOf(document), next);
const changed = (document: Assessment, ...patches: readonly Patch[]): Assessment => {
  const applied = applyPatch(document, patches.flat());
  if (!applied.fits) throw new Error(applied.why);
  return applied.document;
};
const lift = (target: string): Naming => ({ do: 'lift', target, free: [target] });

describe('lastChance is put before any act that takes a part away', () => {
  it.each<[string, Naming, readonly string[]]>([
    ['lifted', lift('bracket'), ['bracket']],
    ['folded aside', { do: 'fold-aside', target: 'bracket' }, ['bracket']],
    ['pried off, which frees it', { do: 'pry', target: 'shield' }, ['shield']],
    ['pried at its glue, and said to have come', { do: 'pry', target: 'glue', free: ['shield'] }, ['shield']],
    ['two at once', { do: 'lift', target: 'bracket', free: ['bracket', 'shield'] }, ['bracket', 'shield']],
  ])('%s', (_how, next, stillIn) => {
    expect(asked(next)).toMatchObject({ subject: 'battery', stillIn });
  });

  it.each<[string, Naming]>([
    ['a screw', { do: 'unscrew', target: 'screws' }],
    ['a failure', { do: 'lift', target: 'bracket', outcome: 'failed', because: 'blocked' }],
    ['the part itself', lift('battery')],
    ['what the record does not know', lift('antenna')],
    ['a fit back', { do: 'fit', target: 'bracket' }],
  ])('and not before %s', (_how, next) => {
    expect(asked(next)).toBeUndefined();
  });

  it('and not where nobody knows what was off when the run began', () => {
    expect(asked(lift('bracket'), bench({ leftBy: 'elsewhere' }))).toBeUndefined();
  });

  it('in words that say what is in and nothing of what an answer would do', () => {
    const both = asked({ do: 'lift', target: 'bracket', free: ['bracket', 'shield'] });
    expect([both?.statement, both?.question]).toEqual([
      'Bracket, shield: still in.',
      'Does battery come with them in?',
    ]);
  });
});

const waved = (document: Assessment, question: LastChance | undefined): Assessment =>
  changed(
    document,
    recordUntried({ document, device: deviceOf(document) }, [
      {
        key: 't1',
        part: question?.subject ?? '',
        off: ['flex'],
        stillIn: [...(question?.stillIn ?? [])],
        specimen: 'a',
        session: 's',
      },
    ]),
  );

describe('an act is held until what it would close is answered or waved off', () => {
  const marked = changed(bench(), markTime({ document: bench(), session: 's' }, { key: 'e1', at: 20 }));
  const act: HeldAct = { mark: 'e1', naming: lift('bracket'), how: 'by-hand', named: 'at-once' };

  it('held while it is open', () => {
    expect(heldNow(viewOf(marked), [act])).toMatchObject({
      question: { subject: 'battery' },
      held: [act],
      released: [],
    });
  });

  it.each(['yes', 'no', 'damaged'] as const)('let go once it is answered: %s', (came) => {
    const trial = { key: 't1', off: ['flex'], came, specimen: 'a', session: 's' };
    const source = { document: marked, device: deviceOf(marked) };
    expect(heldNow(viewOf(changed(marked, recordTrial(source, 'battery', trial))), [act])).toMatchObject({
      question: undefined,
      held: [],
      released: [act],
    });
  });

  it('let go once it is waved off, which is not asked again in this session, and is in another', () => {
    const document = waved(marked, asked(act.naming));
    expect(heldNow(viewOf(document), [act]).released).toEqual([act]);
    const other = {
      ...document.parts?.battery,
      untried: { t1: { off: ['flex'], stillIn: ['bracket'], session: 'x' } },
    };
    expect(asked(act.naming, { ...document, parts: { ...document.parts, battery: other } })).toBeDefined();
  });

  it('waving one part off says nothing of another', () => {
    expect(asked({ do: 'pry', target: 'shield' }, waved(marked, asked(act.naming)))).toMatchObject({
      stillIn: ['shield'],
    });
  });

  it('what was said after it waits for it, and a mark that was taken back or named falls away', () => {
    const two = changed(marked, markTime({ document: marked, session: 's' }, { key: 'e2', at: 30 }));
    const next: HeldAct = { ...act, mark: 'e2', naming: { do: 'pry', target: 'shield' } };
    expect(heldNow(viewOf(two), [act, next]).held).toEqual([act, next]);
    const named = changed(two, nameEntry({ document: two, session: 's' }, 'e1', { do: 'clean' }));
    expect(heldNow(viewOf(named), [act, next])).toMatchObject({ fallen: [act], held: [next] });
  });
});
