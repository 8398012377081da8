import { type Assessment, assessment as schema } from '../../src/record/schema/assessment.ts';
import { PRIORITY_ROLES } from '../../src/schemes/eu-2023-1669/input.ts';
import { SeededRandom } from '../../test/faults/seeded-random.ts';

const MOVES = [
  ['unscrew', 'driver'],
  ['pry', 'pick'],
  ['pry', 'spudger'],
  ['pull', 'tweezers'],
  ['peel', 'mat'],
  ['pull', 'cup'],
] as const;

const TOOLS = Object.fromEntries(
  ['driver', 'pick', 'spudger', 'tweezers', 'mat', 'cup'].map((id) => [id, { name: `The ${id}` }]),
);

/**
 * An invented product of fifty parts and 150 fasteners as it stands on release day: all of it taken off once and described,
 * nothing known of supply, kits, tools or pairing, four of five classes not looked at, and of every so many parts, with what
 * holds them, not by sight what had to be off (0: of none).
 */
export const openProduct = (seed: number, unseenEvery: number): Assessment => {
  const random = new SeededRandom(seed);
  const parts = Array.from({ length: 50 }, (_, index) => `p${index}`);
  const roleOf = (index: number): string | undefined =>
    PRIORITY_ROLES.filter((role) => role !== 'hinge')[(49 - index) / 5];
  const fasteners = parts.flatMap((part, index) =>
    [0, 1, 2].map((number) => ({ id: `f${index}-${number}`, part, index })),
  );
  const before = (index: number): string[] =>
    parts
      .slice(Math.max(0, index - 4), index)
      .filter((_part, at, all) => at === all.length - 2 || random.below(3) === 0);
  const sight = (index: number) =>
    unseenEvery > 0 && index % unseenEvery === 0 ? {} : { behind: before(index).length === 0 ? [] : [before(index)] };
  const moves = new Map(fasteners.map(({ id }) => [id, random.pick(MOVES)]));
  const record = {
    format: 'unfasten/assessment',
    version: 1,
    invented: true,
    product: { name: 'Tarn bench', category: 'smartphone', reference: 'a' },
    specimens: { a: { name: 'Specimen A' } },
    tools: TOOLS,
    parts: Object.fromEntries(parts.map((id, index) => [id, { ...roleLine(roleOf(index)), ...sight(index) }])),
    fasteners: Object.fromEntries(
      fasteners.map(({ id, part, index }, number) => {
        const [what, tool] = moves.get(id) ?? MOVES[0];
        const leaves = number % 5 < 4 ? {} : { leaves: 'reusable' };
        const ways = { w: { actions: [{ do: what, tools: [tool] }], ...leaves } };
        return [id, { kind: 'other', between: [part, 'chassis'], ...sight(index), ways }];
      }),
    ),
    sessions: { run: runOf(parts, fasteners, moves) },
  };
  return schema.parse(record);
};

type Move = (typeof MOVES)[number];

/** Everything taken off in the order of its numbers, five seconds an action. */
const runOf = (
  parts: readonly string[],
  fasteners: readonly { readonly id: string; readonly index: number }[],
  moves: ReadonlyMap<string, Move>,
) => {
  const order = parts.flatMap((part, index) => [
    ...fasteners.filter((one) => one.index === index).map(({ id }) => ({ id, move: moves.get(id) })),
    { id: part, move: undefined },
  ]);
  const entries = order.map(({ id, move }, at) => [
    `e${at}`,
    { at: 5 * (at + 1), do: move?.[0] ?? 'lift', target: id, tools: move ? [move[1]] : [], took: 5 },
  ]);
  const start = '2026-03-02T09:00:00+01:00';
  return { kind: 'measured', specimen: 'a', start, startsAs: 'complete', entries: Object.fromEntries(entries) };
};

const roleLine = (role: string | undefined) => (role === undefined ? {} : { role });
