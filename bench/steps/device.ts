import { seededNumbers } from '#quantity/seeded-numbers';
import type { Fact, ReuseClass, RouteAction, RouteAtom, RouteProblem } from '#routes/problem/route-problem';

/** A seeded handset-like device for benches: nothing of it is real. */

/** Seeded draws of whole numbers from 0 to below the end. */
const drawer = (seed: number): ((end: number) => number) => {
  const next = seededNumbers(seed);
  return (end) => Math.floor(next() * end);
};

const TOOLS = [
  'driver-cross',
  'driver-lobe',
  'driver-tri',
  'spudger',
  'tweezers',
  'pick',
  'cup',
  'heater',
  'solvent',
  'lever',
  'eject-pin',
  'stand',
];
const KINDS: readonly { readonly do: RouteAtom['do']; readonly tools: readonly string[]; readonly asItems: boolean }[] =
  [
    { do: 'unscrew', tools: ['driver-cross'], asItems: true },
    { do: 'unscrew', tools: ['driver-cross'], asItems: true },
    { do: 'unscrew', tools: ['driver-lobe'], asItems: true },
    { do: 'unscrew', tools: ['driver-tri'], asItems: true },
    { do: 'unplug', tools: ['spudger'], asItems: false },
    { do: 'unplug', tools: ['spudger'], asItems: false },
    { do: 'release-clips', tools: ['lever'], asItems: false },
    { do: 'peel', tools: ['tweezers'], asItems: false },
    { do: 'pry', tools: ['pick'], asItems: false },
  ];

type Draw = (end: number) => number;

const odds = (draw: Draw): NonNullable<RouteAction['odds']> => {
  const damage = draw(4) === 0 ? (1 + draw(8)) / 100 : 0;
  const success = 1 - damage - draw(3) / 20;
  return {
    success: { low: success, mean: success, high: success },
    damage: { low: damage, mean: damage, high: damage },
    tries: 3,
    source: 'generated',
  };
};

interface Fixed {
  readonly fastener: string;
  readonly needs: readonly Fact[];
  readonly anyOf: RouteAction['anyOf'];
}

const way = (draw: Draw, { fastener, needs, anyOf }: Fixed, index: number): RouteAction => {
  const kind = KINDS[draw(KINDS.length)] ?? KINDS[0];
  if (!kind) throw new Error('no kinds');
  const heated = (kind.do === 'pry' || kind.do === 'peel') && draw(2) === 0;
  const leaves: ReuseClass =
    kind.do === 'pry' || kind.do === 'peel' ? (draw(2) ? 'resupplied' : 'removable') : 'reusable';
  const milliseconds = (): number => 500 * (2 + draw(40));
  return {
    id: `release/${fastener}/w${index}`,
    kind: 'release',
    subject: fastener,
    way: `w${index}`,
    atoms: [
      ...(heated ? [{ do: 'heat', tools: ['heater'], place: fastener, milliseconds: milliseconds() } as const] : []),
      {
        do: kind.do,
        tools: kind.do === 'pry' && draw(2) ? ['cup', 'pick'] : kind.tools,
        milliseconds: milliseconds(),
        releases: { fastener, count: 1 + draw(4), asItems: kind.asItems },
      },
    ],
    needs,
    anyOf,
    gives: [`released/${fastener}`],
    leaves,
    odds: odds(draw),
    shown: 'bench',
  };
};

const lift = (draw: Draw, part: string, needs: readonly Fact[]): RouteAction => ({
  id: `lift/${part}`,
  kind: 'lift',
  subject: part,
  atoms: [
    {
      do: 'lift',
      tools: draw(5) === 0 ? ['tweezers'] : [],
      milliseconds: 500 * (2 + draw(12)),
      removes: { part, becomes: 'free' },
    },
  ],
  needs,
  anyOf: [],
  gives: [`off/${part}`, `free/${part}`],
  shown: 'bench',
});

interface Growing {
  readonly draw: Draw;
  readonly actions: RouteAction[];
  readonly off: Fact[];
  fasteners: number;
  readonly want: { readonly parts: number; readonly fasteners: number; readonly manyWays: number };
}

/** What bars a part or fastener deeper in: parts nearer the entry, mostly shallow ones. */
const behind = ({ draw, off }: Growing): { needs: Fact[]; anyOf: Fact[][][] } => {
  const shallow = (): number => Math.floor((draw(1000) * draw(1000) * off.length) / 1_000_000);
  const pick = (): Fact[] => (off.length === 0 ? [] : [off[shallow()] as Fact]);
  const needs = [...new Set([...pick(), ...(draw(3) === 0 ? pick() : [])])];
  const anyOf = draw(6) === 0 && off.length > 3 ? [[pick(), pick()]] : [];
  return { needs, anyOf };
};

const addPart = (growing: Growing, index: number): void => {
  const { draw, actions, off, want } = growing;
  const part = `part-${index}`;
  const left = want.fasteners - growing.fasteners;
  const parts = want.parts - index;
  const count = Math.min(left, Math.max(0, Math.round(left / parts) + draw(3) - 1));
  const held: Fact[] = [];
  const around = behind(growing);
  for (let at = 0; at < (index === want.parts - 1 ? left : count); at++) {
    const fastener = `fastener-${growing.fasteners}`;
    const ways = growing.fasteners % 5 === 2 ? 2 : 1;
    const { needs, anyOf } = draw(3) === 0 ? behind(growing) : around;
    for (let each = 0; each < ways; each++) actions.push(way(draw, { fastener, needs, anyOf }, each));
    held.push(`released/${fastener}`);
    growing.fasteners++;
  }
  actions.push(lift(draw, part, held.length > 0 ? held : around.needs));
  off.push(`off/${part}`);
};

/** A device of that many parts and fasteners; every fifth fastener has two ways. Every tenth part and some others are priority parts. */
export const benchDevice = (seed: number, size = { parts: 45, fasteners: 65 }): RouteProblem => {
  const draw = drawer(seed);
  const growing: Growing = { draw, actions: [], off: [], fasteners: 0, want: { ...size, manyWays: 12 } };
  for (let index = 0; index < size.parts; index++) addPart(growing, index);
  return {
    reach: 'pessimistic',
    tools: TOOLS.map((id) => ({ id, pickupMilliseconds: 500 * (2 + draw(8)), holdingAid: id === 'stand' })),
    actions: growing.actions,
    priorityParts: [0, 5, 9, 14, 18, 23, 27, 32, 38, 44]
      .filter((part) => part < size.parts)
      .map((part) => `part-${part}`),
    unreachable: {},
  };
};
