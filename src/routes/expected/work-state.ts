import { addAll, addBit, addsWithin, type Bits, bitsKey, emptyBits, hasBit, isWithin, without } from './bits.ts';
import type { Move, MoveTable } from './moves.ts';
import { isOpenMove, isSure, reachedFacts } from './reach.ts';

/**
 * Where does the work stand, as far as the rest of it can tell? `facts` holds only facts that a move still of use asks for,
 * `open` the moves still of use, `held` a tool set that costs the same to leave as the one in hand.
 */
export interface WorkState {
  readonly kind: 'working' | 'reached' | 'stranded';
  readonly facts: Bits;
  readonly open: Bits;
  readonly held: number;
  readonly key: string;
  /** From here on nothing can be damaged or stranded, whatever is tried. */
  readonly isSafe: boolean;
}

/** What is known of a state before it is reduced. `open` holds moves neither done nor exhausted. */
export interface RawState {
  readonly facts: Bits;
  readonly open: Bits;
  readonly held: number;
}

/** Where does the work start? The complete product, empty hands, no way tried. */
export const startOfWork = (table: MoveTable): RawState => {
  const open = emptyBits(table.moves.length);
  for (let index = 0; index < table.moves.length; index++) addBit(open, index);
  return { facts: emptyBits(table.factCount), open, held: 0 };
};

/**
 * Which state is this once everything that no longer matters is forgotten? A move is of use when it can still be come to
 * and gives a fact that the target, or another move of use, still lacks; moves only ever fall out of use. States with equal
 * keys have equal futures. Cost: a few passes over the open moves.
 */
export const workState = (table: MoveTable, raw: RawState, known: KnownStates): WorkState => {
  const rawKey = keyOf(raw);
  const found = known.get(rawKey) ?? reduced(table, raw);
  known.set(rawKey, found);
  return found;
};

/** Reduced states by the key of what they were before, so that each is reduced once in a search. */
export type KnownStates = Map<string, WorkState>;

const keyOf = ({ facts, open, held }: RawState): string =>
  `${bitsKey(facts)}${bitsKey(open)}${String.fromCharCode(held)}`;

const reduced = (table: MoveTable, raw: RawState): WorkState => {
  if (isWithin(table.target, raw.facts)) return { ...raw, kind: 'reached', key: 'reached', isSafe: true };
  const possible = possibleMoves(table, raw);
  if (!possible) return { ...raw, kind: 'stranded', key: 'stranded', isSafe: true };
  const { open, mentioned } = movesOfUse(table, raw, possible);
  const facts = raw.facts.slice();
  for (let word = 0; word < facts.length; word++) facts[word] = (facts[word] ?? 0) & (mentioned[word] ?? 0);
  const held = sameHands(table, raw.held, open);
  return { kind: 'working', facts, open, held, key: keyOf({ facts, open, held }), isSafe: isSafe(table, facts, open) };
};

interface Possible {
  readonly moves: readonly number[];
  readonly reached: Bits;
}

/** Which open moves can still be come to if all goes well, and which facts come about? Undefined when the target does not. */
const possibleMoves = (table: MoveTable, { facts, open }: RawState): Possible | undefined => {
  const reached = facts.slice();
  const found: number[] = [];
  let left: number[] = [];
  for (let index = 0; index < table.moves.length; index++) if (hasBit(open, index)) left.push(index);
  for (let isGrown = true; isGrown; ) {
    isGrown = false;
    const waiting: number[] = [];
    for (const index of left) {
      const move = table.moves[index];
      if (!move || !isOpenMove(move, reached)) {
        waiting.push(index);
        continue;
      }
      found.push(index);
      addAll(reached, move.gives);
      isGrown = true;
    }
    left = waiting;
  }
  return isWithin(table.target, reached) ? { moves: found, reached } : undefined;
};

/** Which possible moves give a fact still wanted, and which facts do they ask for? Found backward from the target. */
const movesOfUse = (
  table: MoveTable,
  { facts }: RawState,
  { moves, reached }: Possible,
): { readonly open: Bits; readonly mentioned: Bits } => {
  const open = emptyBits(table.moves.length);
  const wanted: number[] = without(table.target, facts).slice();
  const mentioned = emptyBits(table.factCount);
  for (let isGrown = true; isGrown; ) {
    isGrown = false;
    for (let at = moves.length - 1; at >= 0; at--) {
      const index = moves[at] ?? 0;
      const move = table.moves[index];
      if (!move || hasBit(open, index) || !addsWithin(move.gives, facts, wanted)) continue;
      addBit(open, index);
      addAll(wanted, move.needs);
      addAll(mentioned, move.needs);
      for (const clause of move.clauses) addClause(clause, { facts, reached, wanted, mentioned });
      isGrown = true;
    }
  }
  return { open, mentioned };
};

const addClause = (
  clause: readonly Bits[],
  sets: { readonly facts: Bits; readonly reached: Bits; readonly wanted: number[]; readonly mentioned: number[] },
): void => {
  for (const alternative of clause) addAll(sets.mentioned, alternative);
  if (clause.some((alternative) => isWithin(alternative, sets.facts))) return;
  for (const alternative of clause) if (isWithin(alternative, sets.reached)) addAll(sets.wanted, alternative);
};

/** Can nothing be damaged, and is the target in reach by sure moves alone? It then stays so, for sure moves are never exhausted. */
const isSafe = (table: MoveTable, facts: Bits, open: Bits): boolean => {
  const sure: Move[] = [];
  for (const [index, move] of table.moves.entries()) {
    if (!hasBit(open, index)) continue;
    if (move.damage > 0) return false;
    if (isSure(move)) sure.push(move);
  }
  return isWithin(table.target, reachedFacts(sure, facts));
};

/** Does having one tool set in hand never cost more than having another, for every set that open moves want first? */
export const isNoWorse = (
  table: MoveTable,
  open: Bits,
  hands: { readonly one: number; readonly other: number },
): boolean =>
  firstSets(table.moves, open).every(
    (set) => (table.pickup[hands.one]?.[set] ?? 0) <= (table.pickup[hands.other]?.[set] ?? 0),
  );

/** Which is the first tool set that costs as much to leave as this one, for every set that open moves want first? */
const sameHands = (table: MoveTable, held: number, open: Bits): number => {
  const own = table.pickup[held] ?? [];
  const wanted = firstSets(table.moves, open);
  for (let other = 0; other < held; other++) {
    const row = table.pickup[other] ?? [];
    if (wanted.every((set) => row[set] === own[set])) return other;
  }
  return held;
};

const firstSets = (moves: readonly Move[], open: Bits): readonly number[] => {
  const sets: number[] = [];
  for (const [index, move] of moves.entries())
    if (move.firstTools > 0 && hasBit(open, index) && !sets.includes(move.firstTools)) sets.push(move.firstTools);
  return sets;
};
