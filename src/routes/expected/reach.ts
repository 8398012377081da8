import { addAll, type Bits, isWithin } from './bits.ts';
import type { Move } from './moves.ts';

/** Is this move certain to give its facts and to damage nothing? */
export const isSure = (move: Move): boolean => move.success >= 1 && move.damage <= 0;

/** Do these facts let a move be made? */
export const isOpenMove = (move: Move, facts: Bits): boolean => {
  if (!isWithin(move.needs, facts)) return false;
  for (const clause of move.clauses) if (!clause.some((alternative) => isWithin(alternative, facts))) return false;
  return true;
};

/** Which facts can come about from these by these moves, chances left aside? */
export const reachedFacts = (moves: readonly Move[], from: Bits): Bits => {
  const facts = from.slice();
  for (let isGrown = true; isGrown; ) {
    isGrown = false;
    for (const move of moves) {
      if (isWithin(move.gives, facts) || !isOpenMove(move, facts)) continue;
      addAll(facts, move.gives);
      isGrown = true;
    }
  }
  return facts;
};
