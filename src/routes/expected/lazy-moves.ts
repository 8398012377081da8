import { type Bits, hasBit, isWithin, members, union, without } from './bits.ts';
import { factUses } from './fact-uses.ts';
import type { Move, MoveTable } from './moves.ts';
import { isOpenMove, isSure } from './reach.ts';

/**
 * Which moves may wait until right before the move that needs them? A sure, bare-handed move that alone gives its facts
 * costs the same whenever it is done, so that doing it early never gains. Facts that stand in a clause are left out, for
 * there is a choice about them.
 */
export const withLazyMoves = (table: MoveTable): MoveTable => {
  const { givers } = factUses(table);
  const inClauses = table.moves
    .flatMap((move) => move.clauses.flat())
    .reduce(union, without(table.target, table.target));
  const isLazy = (move: Move): boolean =>
    isSure(move) &&
    move.firstTools === 0 &&
    members(move.gives).every((fact) => givers[fact] === 1 && !hasBit(inClauses, fact));
  return { ...table, moves: table.moves.map((move) => ({ ...move, isLazy: isLazy(move) })) };
};

/** The lazy moves that make some facts true, in order, and the facts then. */
export interface LazyRun {
  readonly moves: readonly Move[];
  readonly facts: Bits;
}

/** Which lazy moves lead from `facts` to all of `wanted`? Undefined when lazy moves alone do not. `lazy` are those still to do. */
export const lazyRun = (wanted: Bits, facts: Bits, lazy: readonly Move[]): LazyRun | undefined => {
  const run: Move[] = [];
  const reached = collect(wanted, facts, { lazy, run });
  return reached && { moves: run, facts: reached };
};

const collect = (
  wanted: Bits,
  facts: Bits,
  scope: { readonly lazy: readonly Move[]; readonly run: Move[] },
): Bits | undefined => {
  let now = facts;
  while (!isWithin(wanted, now)) {
    const missing = members(without(wanted, now))[0] ?? -1;
    const giver = scope.lazy.find((move) => hasBit(move.gives, missing));
    if (!giver) return undefined;
    const before = collect(giver.needs, now, scope);
    if (!before || !isOpenMove(giver, before)) return undefined;
    scope.run.push(giver);
    now = union(before, giver.gives);
  }
  return now;
};
