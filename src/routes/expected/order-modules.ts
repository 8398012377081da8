import { bitsKey, bitsOf, emptyBits, isWithin } from './bits.ts';
import { nearlyEqual } from './compare-worth.ts';
import { type Consumers, factUses, soleConsumers } from './fact-uses.ts';
import { clauseKey } from './fuse-moves.ts';
import type { Move, MoveTable } from './moves.ts';
import { isSure, reachedFacts } from './reach.ts';

/** In which order do two moves of one module go? Negative when `a` goes first. */
export type ModuleOrder = (a: Move, b: Move) => number;

/**
 * Which moves need never be made before which others? A module is a set of moves with one tool, the same needs and the same
 * consumers, each the only source of its facts, without which the target is lost. Some best policy makes them in ascending
 * order of expected cost over chance of ending, whatever it does in between; so each waits for those before it. Proved in
 * docs/method/expected-time.md.
 */
export const orderModules = (table: MoveTable, order: ModuleOrder): MoveTable => {
  const uses = factUses(table);
  const needed = new Set(table.moves.filter((move) => isLandmark(table, move)));
  const modules = new Map<string, Move[]>();
  for (const move of table.moves) {
    const consumers = soleConsumers(move, uses);
    if (!consumers || move.isLazy || move.firstTools !== move.lastTools || !needed.has(move)) continue;
    const key = moduleKey(move, consumers);
    const module = modules.get(key);
    if (module) module.push(move);
    else modules.set(key, [move]);
  }
  const waits = new Map<Move, readonly Move[]>();
  for (const module of modules.values()) {
    const sorted = [...module].sort(order);
    for (const [index, move] of sorted.entries()) waits.set(move, sorted.slice(0, index));
  }
  const waitsFor = (move: Move) =>
    bitsOf(
      table.moves.length,
      (waits.get(move) ?? []).map((other) => table.moves.indexOf(other)),
    );
  return {
    ...table,
    moves: table.moves.map((move) => ({ ...move, waitsFor: waitsFor(move), isNeeded: needed.has(move) })),
  };
};

const moduleKey = (move: Move, { key }: Consumers): string =>
  `${move.firstTools}|${key}|${bitsKey(move.needs)}|${move.clauses.map(clauseKey).sort().join('&')}`;

/** Is the target out of reach without this move, chances left aside? */
const isLandmark = (table: MoveTable, move: Move): boolean => {
  const left = table.moves.filter((other) => other !== move);
  return !isWithin(table.target, reachedFacts(left, emptyBits(table.factCount)));
};

/** The order of a module by what each move adds and how likely the work ends there: sure moves last. */
export const byRatio =
  (ratio: (move: Move) => { readonly adds: number; readonly second: number }): ModuleOrder =>
  (a, b) => {
    if (isSure(a) || isSure(b)) return Number(isSure(a)) - Number(isSure(b));
    const one = ratio(a);
    const other = ratio(b);
    return nearlyEqual(one.adds, other.adds) ? one.second - other.second : one.adds - other.adds;
  };
