import { type Bits, bitsKey, union, without } from './bits.ts';
import { factUses, soleConsumers } from './fact-uses.ts';
import type { Move, MoveTable } from './moves.ts';
import { isSure } from './reach.ts';

/**
 * Which moves may be joined without losing the optimum? Two rules, proved in docs/method/expected-time.md, are applied
 * until neither fits.
 *
 * 1. Sure moves with one tool whose facts are needed in the same places: the earlier can wait for the later.
 * 2. A sure move needed by one move only, which takes the same tool or follows bare hands: it can wait for that move.
 */
export const fuseMoves = (table: MoveTable): MoveTable => {
  let current = table;
  for (;;) {
    const moves = joinSame(current) ?? joinChain(current);
    if (!moves) return current;
    current = { ...current, moves };
  }
};

/** Rule 1: the moves with the first two that may be joined, joined. */
const joinSame = (table: MoveTable): readonly Move[] | undefined => {
  const uses = factUses(table);
  const earlier = new Map<string, Move>();
  for (const move of table.moves) {
    const consumers = soleConsumers(move, uses);
    if (!consumers || !isSure(move) || move.firstTools !== move.lastTools) continue;
    const place = `${move.firstTools}|${consumers.key}`;
    const first = earlier.get(place);
    if (first) return replaced(table.moves, first, move);
    earlier.set(place, move);
  }
  return undefined;
};

/** Rule 2: the moves with the first that may be joined to the one move that needs it, joined. */
const joinChain = (table: MoveTable): readonly Move[] | undefined => {
  const uses = factUses(table);
  for (const move of table.moves) {
    const consumer = table.moves[soleConsumers(move, uses)?.sole ?? -1];
    if (!consumer || !isSure(move)) continue;
    const isSame = move.firstTools === move.lastTools && move.lastTools === consumer.firstTools;
    if (move.lastTools === 0 || isSame) return replaced(table.moves, move, consumer);
  }
  return undefined;
};

const replaced = (moves: readonly Move[], first: Move, second: Move): readonly Move[] => {
  const both = joined(first, second);
  return moves.filter((move) => move !== first).map((move) => (move === second ? both : move));
};

/** What are two moves as one, the second following the sure first? */
const joined = (first: Move, second: Move): Move => ({
  ...second,
  members: [...first.members, ...second.members],
  needs: union(first.needs, without(second.needs, first.gives)),
  clauses: [...first.clauses, ...clausesOnlyIn(second, first)],
  gives: union(first.gives, second.gives),
  milliseconds: first.milliseconds + second.milliseconds,
  firstTools: first.firstTools || second.firstTools,
  lastTools: second.lastTools || first.lastTools,
});

const clausesOnlyIn = (move: Move, other: Move): readonly (readonly Bits[])[] => {
  const known = new Set(other.clauses.map(clauseKey));
  return move.clauses.filter((clause) => !known.has(clauseKey(clause)));
};

/** How does a clause read, whatever the order of its alternatives? */
export const clauseKey = (clause: readonly Bits[]): string => clause.map(bitsKey).sort().join('/');
