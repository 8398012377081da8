import { expect, test } from 'vitest';
import type { DepthPart, DepthZone } from '#report/depth/depth-model';
import { type SectionPart, sectionGeometry } from './section-geometry.ts';

const part = (key: string, step: number, more: Partial<DepthPart> = {}): DepthPart => ({
  ...{ id: key, name: key, heavy: false, step, open: { kind: 'none' }, under: undefined, lineKnown: true },
  ...more,
});
const zones: readonly DepthZone[] = [
  { name: 'Front', parts: [part('display', 2), part('camera', 4, { under: 0, open: { kind: 'to', step: 6 } })] },
  { name: 'Back', parts: [part('cover', 1), part('battery', 7, { under: 0, open: { kind: 'endless' } })] },
];
const many = Array.from({ length: 80 }, (_, index) => part(`part number ${index}`, 3));

/** Does the section lie on its side? Then its faces stand. */
const lies = (some: readonly DepthZone[], width: number): boolean =>
  sectionGeometry(some, width).lines.some(({ kind, from, to }) => kind === 'face' && from[0] === to[0]);

const touches = (a: SectionPart, b: SectionPart): boolean =>
  a.slab.x < b.slab.x + b.slab.width &&
  b.slab.x < a.slab.x + a.slab.width &&
  a.slab.y < b.slab.y + b.slab.height &&
  b.slab.y < a.slab.y + a.slab.height;

test('the first face is above and the second below, deeper parts nearer the core', () => {
  const { parts, lines } = sectionGeometry(zones, 1000);
  const down = new Map(parts.map(({ part: { id: key }, slab }) => [key, slab.y]));
  const core = lines.find(({ kind }) => kind === 'core')?.from[1] ?? Number.NaN;
  const order = ['display', 'camera', 'battery', 'cover'].map((key) => down.get(key) ?? Number.NaN);
  expect(order).toEqual([...order].sort((a, b) => a - b));
  expect(order.filter((y) => y < core)).toHaveLength(2);
  expect(lines.filter(({ kind }) => kind === 'face')).toHaveLength(2);
});

test('depth that is open is hatched to its end, or to a break line where no end is known', () => {
  const open = new Map(sectionGeometry(zones, 1000).parts.map((one) => [one.part.id, one.open]));
  expect(open.get('display')).toBeUndefined();
  expect(open.get('camera')?.break).toBeUndefined();
  expect(open.get('battery')?.break).toMatch(/^M/);
});

test.each([300, 380, 700, 1000, 1400])(
  'at %d px every part is drawn once, within the picture, touching no other',
  (width) => {
    for (const some of [zones, [{ name: 'Outside', parts: many }]]) {
      const { parts, width: drawn, height } = sectionGeometry(some, width);
      expect(parts).toHaveLength(some.flatMap((zone) => zone.parts).length);
      expect(drawn).toBeLessThanOrEqual(width * 1.18);
      expect(lies(some, width)).toBe(width < 500 || some !== zones);
      for (const [index, one] of parts.entries()) {
        expect(one.slab.x + one.slab.width).toBeLessThanOrEqual(drawn);
        expect(one.slab.y + one.slab.height).toBeLessThanOrEqual(height);
        expect(parts.slice(index + 1).filter((other) => touches(one, other))).toEqual([]);
      }
    }
  },
);

test('a product without a part that has a depth is an empty picture', () => {
  expect(sectionGeometry([], 1000).parts).toEqual([]);
});

test('a part that can be reached from another face too is marked there, at the face and outside it', () => {
  const marked = zones.map((zone, index) =>
    index === 0 ? { ...zone, marks: [{ id: 'battery', name: 'battery' }] } : zone,
  );
  for (const width of [1000, 360]) {
    const { marks, words, lines } = sectionGeometry(marked, width);
    const front = words.find(({ text }) => text === 'Front');
    expect(marks.map(({ text, at }) => [text, at[1]])).toEqual([['battery', front?.at[1]]]);
    expect(marks[0]?.wedge).toMatch(/^M/);
    expect(lines.filter(({ kind }) => kind === 'face')).toHaveLength(2);
  }
  expect(sectionGeometry(zones, 1000).marks).toEqual([]);
});
