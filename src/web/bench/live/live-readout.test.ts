import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { flatAtoms } from '#routes/sequence/bench-sequence';
import { observedItems } from '#routes/sequence/observed-items';
import { runSoFar } from '#routes/sequence/observed-run';
import { DEFAULT_COUNTING } from '#routes/steps/counting-rules';
import { countSteps } from '#routes/steps/step-counter';
import { smallRecord } from '../../../../test/records/small-record.ts';
import { share } from '../../../../test/share.ts';
import { applyPatch } from '../../ledger/apply-patch.ts';
import * as patches from '../commands/bench-patches.ts';
import { startOverlap, stopOverlap } from '../commands/overlap-patches.ts';
import { beginRetake, endRetake, openRetake } from '../commands/retake-patches.ts';
import { type LiveReadout, liveReadout } from './live-readout.ts';

const bench = (isDescribed: boolean): Assessment =>
  smallRecord({
    ...(isDescribed
      ? {
          parts: { lid: {}, tray: {}, cell: { within: 'tray', role: 'battery' } },
          fasteners: {
            screws: { kind: 'screw', count: 3, between: ['lid', 'chassis'] },
            glue: { kind: 'adhesive', between: ['cell', 'tray'] },
          },
        }
      : {}),
    log: [['unscrew', 'screws', ['driver']]],
  });

const NAMINGS: readonly patches.Naming[] = [
  { do: 'lift', target: 'lid', free: ['lid'], tools: [] },
  { do: 'fold-aside', target: 'tray', tools: ['spudger'] },
  { do: 'heat', target: 'glue', tools: ['mat'], place: 'rear' },
  { do: 'pry', target: 'glue', tools: ['spudger', 'clamp'], free: ['cell'] },
  { do: 'pry', target: 'glue', tools: ['pick'], outcome: 'failed', because: 'slipped' },
  { do: 'unscrew', target: 'screws', tools: ['driver'], outcome: 'partial', did: 2 },
  { do: 'clean', target: 'glue', tools: ['cloth'] },
  { do: 'clean', target: 'screws', tools: ['cloth'] },
  { do: 'fit', target: 'lid', tools: [] },
  { do: 'fasten', target: 'screws', tools: ['driver'] },
  { do: 'lift', target: 'cell', tools: ['spudger'] },
  { note: 'something slipped' },
];

interface Act {
  readonly kind: number;
  readonly which: number;
}
type Bench = { readonly document: Assessment; readonly session: string };

const GOALS = [undefined, 'cell', 'lid'] as const;

/** One act at the bench at a time [s]: the patch that the page would make of it. */
const patchOf = (place: Bench, { kind, which }: Act, at: number): Patch => {
  const session = place.document.sessions?.run as NonNullable<Assessment['sessions']>[string];
  const key = `k${at}`;
  const goal = GOALS[which % GOALS.length];
  const naming = NAMINGS[which % NAMINGS.length] as patches.Naming;
  const entry = Object.keys(session.entries)[which % Object.keys(session.entries).length] ?? '';
  const overlap = Object.entries(session.entries).find(([, one]) => one.began !== undefined && one.do === undefined);
  const held = patches.openHold(session);
  const retake = openRetake(session);
  const acts: readonly (() => Patch)[] = [
    () => patches.markTime(place, { key, at, goal }),
    () => patches.markTime(place, { key, at, goal }),
    () => patches.enterAction(place, { ...naming, key, at, goal, naming: 'by-hand' }),
    () => patches.nameEntry(place, Object.keys(session.entries).at(-1) ?? '', { ...naming, named: 'later' }),
    () => patches.nameEntry(place, entry, { ...naming, named: 'later', naming: 'suggested' }),
    () => patches.undoLast(place),
    () => patches.withdrawEntry(place, entry),
    () => (held ? patches.endHold(place, held[0], at) : patches.startHold(place, { key, from: at, reason: 'tea' })),
    () => (retake ? endRetake(place, retake[0], at) : beginRetake(place, { key, from: at, repeats: entry })),
    () =>
      overlap
        ? stopOverlap(place, overlap[0], { key, at, naming: { do: 'heat', target: 'glue', tools: ['mat'] } })
        : startOverlap(place, { key, at, goal, place: 'rear' }),
    () => patches.reviewEntry(place, entry),
  ];
  return acts[kind % acts.length]?.() ?? [];
};

/** The same with nothing kept: of a copy no entry is the one that was followed. */
const anew = (document: Assessment, goal: string | undefined): LiveReadout =>
  liveReadout(structuredClone(document), 'run', goal);

/** The depth as the routes count it, from the whole run with its groundwork. */
const wholeDepth = (assessment: Assessment, { device }: LiveReadout, goal: string | undefined): number => {
  const source = { assessment, device };
  const run = runSoFar(source, 'run');
  if (!run) return 0;
  const kept = run.actions.flatMap(({ goals }, index) =>
    goals === undefined || goal === undefined || goals.includes(goal) ? [index] : [],
  );
  const { items } = observedItems(source, run, new Set(kept));
  return countSteps(flatAtoms(items).atoms, DEFAULT_COUNTING, new Set(['clamp'])).total;
};

it('liveReadout that follows a log says what it says of the whole, after any acts, also from an earlier mark between', () => {
  const act = fc.record({ kind: fc.nat(10), which: fc.nat(35) });
  fc.assert(
    fc.property(fc.boolean(), fc.array(act, { minLength: 1, maxLength: 30 }), (isDescribed, acts) => {
      let document = bench(isDescribed);
      for (const [index, one] of acts.entries()) {
        const patch = patchOf({ document, session: 'run' }, one, 20 + 10 * index);
        const applied = applyPatch(document, patch);
        if (!applied.fits) throw new Error(applied.why);
        const earlier = document;
        document = applied.document;
        const goal = GOALS[one.which % GOALS.length];
        const followed = liveReadout(document, 'run', goal);
        expect(followed).toEqual(anew(document, goal));
        expect(followed.depth).toBe(wholeDepth(document, followed, goal));
        if (one.kind % 3 === 0) expect(liveReadout(earlier, 'run', goal)).toEqual(anew(earlier, goal));
      }
    }),
    { numRuns: share(60, 2000) },
  );
});

it('a mark leaves the device and every other line the very same object, so that nothing of them is drawn again', () => {
  const before = bench(true);
  const first = liveReadout(before, 'run', undefined);
  const marked = applyPatch(before, patches.markTime({ document: before, session: 'run' }, { key: 'm', at: 20 }));
  if (!marked.fits) throw new Error(marked.why);
  const second = liveReadout(marked.document, 'run', undefined);
  expect(second.device).toBe(first.device);
  expect(second.log).toHaveLength(2);
  expect(second.log[0]).toBe(first.log[0]);
});
