import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { PartVerdict } from '#verdict/verdict';
import { fixtureVerdict } from '../../../test/fixtures/verdict.ts';
import { share } from '../../../test/share.ts';
import { textWidth } from '../look/text-width.ts';
import { type Box, collide } from './boxes.ts';
import { depthDrawing } from './depth-drawing.ts';
import { layoutZone, type ZoneLayout } from './depth-layout.ts';
import { type DepthPart, type DepthZone, depthOf, depthWords, depthZones } from './depth-model.ts';
import { entryMarks } from './entry-marks.ts';
import { bandWords } from './law-bands.ts';
import { outlineOf } from './outline-drawing.ts';
import { slabHeight } from './step-scale.ts';

const seed = 20_261_125;
const touching = { across: 0, down: 0 };
const template = fixtureVerdict.parts[0] as PartVerdict;
const withDepth = (depth: PartVerdict['depth']): PartVerdict => ({ ...template, depth });

test('depthOf puts a part at its earliest step and keeps apart open to a step, open without end, and nothing known', () => {
  expect(depthOf(withDepth({ shown: 8, atLeast: 8 }))).toEqual({ step: 8, open: { kind: 'none' } });
  expect(depthOf(withDepth({ shown: 12, atLeast: 8 }))).toEqual({ step: 8, open: { kind: 'to', step: 12 } });
  expect(depthOf(withDepth({ atLeast: 8 }))).toEqual({ step: 8, open: { kind: 'endless' } });
  expect(depthOf(withDepth({ shown: 8 }))).toEqual({ step: 8, open: { kind: 'none' } });
  expect([depthOf(withDepth({})), depthOf(withDepth({ atLeast: 1 }))]).toEqual([undefined, undefined]);
  expect(['8', '8–12', '8 or more', 'not known']).toEqual(
    [{ shown: 8 }, { shown: 12, atLeast: 8 }, { atLeast: 8 }, {}].map((depth) => depthWords(withDepth(depth))),
  );
});

test('depthZones leads a line past parts that are no less deep, survives a circle of after, and keeps every face', () => {
  const part = (id: string, shown: number, after?: string): PartVerdict => {
    const { after: _, ...rest } = template;
    return {
      ...rest,
      part: id,
      face: 'front',
      depth: { shown, atLeast: shown },
      ...(after === undefined ? {} : { after }),
    };
  };
  const parts = [
    part('a', 2),
    part('b', 5, 'a'),
    part('c', 5, 'b'),
    part('d', 9, 'e'),
    part('e', 9, 'd'),
    { ...part('f', 1), face: 'nowhere' },
  ];
  const zones = depthZones({ ...fixtureVerdict, parts });
  expect(zones.map(({ name }) => name)).toEqual(['Front face', 'Face not known']);
  expect(zones[0]?.parts.map(({ under }) => under)).toEqual([undefined, 0, 0, undefined, undefined]);
});

test('a part with a second way in lies under the face of its best route and leaves a mark at the other, in both drawings', () => {
  const part = (id: string, name: string, face: string): PartVerdict => ({
    ...template,
    ...{ part: id, name, face, depth: { shown: 3, atLeast: 3 } },
  });
  const parts = [part('a', 'Lid', 'front'), part('b', 'Cell', 'front'), part('c', 'Tray', 'back')];
  const verdict = { ...fixtureVerdict, parts };
  const zones = depthZones(verdict, new Map([['b', { place: 'back', others: ['front', 'nowhere'] }]]));
  expect(zones.map(({ parts: own, marks }) => [own.map(({ id }) => id), marks])).toEqual([
    [['a'], [{ id: 'b', name: 'Cell' }]],
    [['b', 'c'], undefined],
  ]);
  expect(zones[1]?.parts.map(({ alsoFrom }) => alsoFrom)).toEqual([['Front face'], undefined]);
  for (const width of [1100, 352]) {
    const drawn = (some: readonly DepthZone[]) =>
      depthDrawing(some, { id: 'x', width, title: 'T', description: 'D' }).text.split('Cell').length - 1;
    expect([drawn(depthZones(verdict)), drawn(zones)]).toEqual([1, 2]);
  }
});

test('entryMarks never leave their line; what finds no room is told as a number', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 60 }), { maxLength: 30 }),
      fc.integer({ min: 340, max: 1100 }),
      (letters, width) => {
        const marks = letters.map((length, index) => ({ id: `p${index}`, name: 'm'.repeat(length) }));
        const placed = entryMarks({ name: 'Front face', parts: [], marks }, width);
        const told = placed.reduce((sum, { label }) => sum + Number(/^(\d+) more$/.exec(label)?.[1] ?? 1), 0);
        expect(told).toBe(marks.length);
        placed.forEach(({ across, label }, index) => {
          const right = across + textWidth(label, 11.5, 'regular');
          expect(right).toBeLessThanOrEqual(placed[index + 1]?.wedge ?? width);
        });
      },
    ),
    { numRuns: share(100, 1000), seed },
  );
});

test('bandWords follows the table of Annex IV point 5 on both sides of every edge', () => {
  expect([1, 2, 3, 5, 6, 10, 11, 15, 16].map(bandWords)).toEqual([
    'up to 2 steps',
    'up to 2 steps',
    '3 to 5 steps',
    '3 to 5 steps',
    '6 to 10 steps',
    '6 to 10 steps',
    '11 to 15 steps',
    '11 to 15 steps',
    'more than 15 steps',
  ]);
});

const anyParts = fc
  .array(
    fc.record({
      letters: fc.integer({ min: 1, max: 40 }),
      heavy: fc.boolean(),
      step: fc.integer({ min: 1, max: 24 }),
      more: fc.integer({ min: -3, max: 6 }),
      above: fc.nat(),
    }),
    { minLength: 1, maxLength: 60, size: 'max' },
  )
  .map((rows): readonly DepthPart[] =>
    rows.map(({ letters, heavy, step, more, above }, index) => {
      const shallower = rows.flatMap((row, other) => (row.step < step ? [other] : []));
      const open: DepthPart['open'] =
        more > 4 ? { kind: 'endless' } : more > 0 ? { kind: 'to', step: step + more } : { kind: 'none' };
      const under = above % 3 === 0 ? undefined : shallower[above % Math.max(1, shallower.length)];
      return { id: `p${index}`, name: 'm'.repeat(letters), heavy, step, open, under, lineKnown: true };
    }),
  );

/** Everything drawn: slabs and hatches as they are, risers as upright lines and the ticks that lead to the slab. */
function drawnBoxes(
  layout: ZoneLayout,
): readonly { readonly owner: number; readonly kind: string; readonly box: Box }[] {
  return layout.parts.flatMap(({ index, slab, hatch, riser }) => [
    { owner: index, kind: 'slab', box: slab },
    ...(hatch === undefined ? [] : [{ owner: index, kind: 'hatch', box: hatch }]),
    {
      owner: index,
      kind: 'riser',
      box: { left: riser.across, right: riser.across + 0.5, top: riser.from + 0.5, bottom: riser.to },
    },
    {
      owner: index,
      kind: 'tick',
      box: { left: riser.across, right: slab.left - 0.5, top: riser.to, bottom: riser.to + 0.5 },
    },
  ]);
}

test('layoutZone never lets slabs, hatching or lines of different parts touch, whatever the product', () => {
  fc.assert(
    fc.property(anyParts, fc.constantFrom(598, 1008), (parts, width) => {
      const layout = layoutZone({ name: 'face', parts }, width);
      const boxes = drawnBoxes(layout);
      for (const a of boxes) {
        for (const b of boxes) {
          if (a.owner >= b.owner || !collide(a.box, b.box, touching)) continue;
          const lines = ['riser', 'tick'];
          const shareALine =
            lines.includes(a.kind) && lines.includes(b.kind) && parts[a.owner]?.under === parts[b.owner]?.under;
          expect(shareALine, `${a.kind} of ${a.owner} touches ${b.kind} of ${b.owner}`).toBe(true);
        }
      }
    }),
    { numRuns: share(25, 200), seed },
  );
});

test('layoutZone puts every slab within its step, and its line on what must be off first', () => {
  fc.assert(
    fc.property(anyParts, (parts) => {
      const layout = layoutZone({ name: 'face', parts }, 1008);
      for (const { slab, riser, part } of layout.parts) {
        expect(slab.top).toBeGreaterThanOrEqual(layout.scale.top[part.step] ?? 0);
        expect(slab.bottom).toBeLessThanOrEqual(layout.scale.top[part.step + 1] ?? 0);
        const above = part.under === undefined ? undefined : layout.parts[part.under]?.slab;
        expect(riser.from).toBe(above?.bottom ?? 0);
        if (above !== undefined) {
          expect(riser.across).toBeGreaterThan(above.left);
          expect(riser.across).toBeLessThan(above.right);
        }
      }
    }),
    { numRuns: share(25, 200), seed },
  );
});

test('layoutZone fits sixty parts of ordinary depth into a desk’s width', () => {
  const parts = Array.from({ length: 60 }, (_, index): DepthPart => {
    const step = 2 + (index % 14);
    const under =
      step === 2 ? undefined : step < 6 ? 0 : index - 3 > 0 ? Math.max(0, index - 14 - (index % 2)) : undefined;
    const parent = under !== undefined && 2 + (under % 14) < step ? under : undefined;
    return {
      id: `p${index}`,
      name: `Part ${index}`,
      heavy: index % 6 === 0,
      step,
      open: { kind: 'none' },
      under: parent,
      lineKnown: true,
    };
  });
  expect(layoutZone({ name: 'face', parts }, 1008).width).toBeLessThanOrEqual(1008 * 1.15);
});

test('outlineOf never leaves its width, gives every part a line of its own, and lines run only past what hangs on them', () => {
  fc.assert(
    fc.property(anyParts, (parts) => {
      const deepest = Math.max(...parts.map(({ step, open }) => (open.kind === 'to' ? open.step : step)));
      const { rows } = outlineOf({ name: 'face', parts }, { width: 352, deepest });
      expect(rows.map(({ index }) => index).sort((a, b) => a - b)).toEqual(parts.map((_, index) => index));
      rows.forEach((row, at) => {
        expect(row.left + row.label.width).toBeLessThanOrEqual(352);
        const next = rows[at + 1];
        if (next !== undefined) expect(next.top - row.top).toBeGreaterThan(slabHeight);
        const parent = rows.findIndex(({ index }) => index === row.part.under);
        if (row.part.under === undefined) return;
        for (const between of rows.slice(parent + 1, at))
          expect(between.left).toBeGreaterThan((rows[parent]?.left ?? 0) + 3);
      });
    }),
    { numRuns: share(60, 500), seed },
  );
});

test('depthDrawing says the same in text, turns itself where it must, and carries hostile names as text', () => {
  const hostile = fixtureVerdict.parts.map((part) => ({ ...part, name: '</text><script>alert(1)</script>' }));
  const zones = depthZones({ ...fixtureVerdict, parts: hostile });
  const options = { id: 'x', title: 'T', description: 'D' };
  const wide = depthDrawing(zones, { ...options, width: 1100 }).text;
  const phone = depthDrawing(zones, { ...options, width: 352 }).text;
  expect(wide).toContain('class="core"');
  expect(phone).not.toContain('class="core"');
  for (const text of [wide, phone]) {
    expect(text).toContain('role="img" aria-labelledby="x-t x-d"');
    expect(text).not.toContain('<script');
    expect(text.match(/class="slab/g)?.length).toBe(fixtureVerdict.parts.length);
  }
});
