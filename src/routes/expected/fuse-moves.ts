import { addAll, type Bits, bitsKey, emptyBits, isWithin, members, union, without } from './bits.ts';
import { withLazyMoves } from './lazy-moves.ts';
import type { Move, MoveTable } from './moves.ts';

/**
 * Which moves may be joined without losing the optimum? Three rules, each proved in docs/method/expected-time.md, are
 * applied until none fits; then the moves that may wait for their consumer are marked.
 *
 * 1. Sure moves with one tool whose facts are needed by the same moves: the earlier can wait for the later.
 * 2. A sure move needed by one move only, which takes the same tool or follows bare hands: it can wait for that move.
 * 3. Moves with one tool, the same needs and the same consumers, without which the target is lost: one after the other, by
 *    their ratio of expected cost to chance of ending.
 */
export const fuseMoves = (table: MoveTable, order: FusionOrder): MoveTable => {
  let current = table;
  for (;;) {
    const next = joinSame(current, order) ?? joinChain(current);
    if (!next) return withLazyMoves(current);
    current = { ...current, moves: next };
  }
};

/** In which order do two moves of one module go? Negative when `a` goes first. */
export type FusionOrder = (a: Move, b: Move) => number;

/** Is this move certain to give its facts and to damage nothing? */
export const isSure = (move: Move): boolean => move.success >= 1 && move.damage <= 0;

/** Where is a fact needed? A text that is equal for facts needed in the same places, with `one` set when one move alone needs it. */
export interface Consumers {
  readonly key: string;
  readonly sole: number | undefined;
}

/** Where is each fact needed, and how many moves give it? */
export const factUses = (
  table: MoveTable,
): { readonly consumers: readonly Consumers[]; readonly givers: readonly number[] } => {
  const places: string[][] = Array.from({ length: table.factCount }, () => []);
  const soles: (number | undefined)[] = new Array(table.factCount).fill(undefined);
  const givers: number[] = new Array(table.factCount).fill(0);
  for (const [index, move] of table.moves.entries()) {
    for (const fact of members(move.gives)) givers[fact] = (givers[fact] ?? 0) + 1;
    for (const fact of members(move.needs)) {
      places[fact]?.push(`${index}`);
      soles[fact] = index;
    }
    for (const [clause, alternatives] of move.clauses.entries())
      for (const [at, facts] of alternatives.entries())
        for (const fact of members(facts)) places[fact]?.push(`${index}:${clause}:${at}`);
  }
  for (const fact of members(table.target)) places[fact]?.push('target');
  const consumers = places.map((list, fact) => ({
    key: list.join(),
    sole: list.length === 1 && list[0] === `${soles[fact]}` ? soles[fact] : undefined,
  }));
  return { consumers, givers };
};

type Uses = ReturnType<typeof factUses>;

/** What stands for the consumers of a move, when it alone gives its facts and all of them are needed in the same places? */
const soleConsumers = (move: Move, uses: Uses): Consumers | undefined => {
  const facts = members(move.gives);
  const first = uses.consumers[facts[0] ?? -1];
  if (!first) return undefined;
  const isOne = facts.every((fact) => uses.givers[fact] === 1 && uses.consumers[fact]?.key === first.key);
  return isOne ? first : undefined;
};

/** Rules 1 and 3: the first two moves that may be joined, joined. */
const joinSame = (table: MoveTable, order: FusionOrder): readonly Move[] | undefined => {
  const uses = factUses(table);
  const groups = new Map<string, { readonly isModule: boolean; readonly moves: Move[] }>();
  for (const move of table.moves) {
    const consumers = soleConsumers(move, uses);
    if (!consumers || move.firstTools !== move.lastTools) continue;
    const place = `${move.firstTools}|${consumers.key}`;
    const module = `module|${place}|${bitsKey(move.needs)}|${move.clauses.map(clauseKey).sort().join('&')}`;
    for (const key of isSure(move) ? [`sure|${place}`, module] : [module]) {
      const group = groups.get(key) ?? { isModule: key === module, moves: [] };
      group.moves.push(move);
      groups.set(key, group);
    }
  }
  for (const { isModule, moves } of groups.values()) {
    if (moves.length < 2) continue;
    const joinable = isModule ? moves.filter((move) => isLandmark(table, move)) : moves;
    const [first, second] = [...joinable].sort(order);
    if (first && second) return replaced(table.moves, [first, second], joined(first, second));
  }
  return undefined;
};

const clauseKey = (clause: readonly Bits[]): string => clause.map(bitsKey).sort().join('/');

/** Rule 2: the first move that may be joined to the one move that needs it. */
const joinChain = (table: MoveTable): readonly Move[] | undefined => {
  const uses = factUses(table);
  for (const move of table.moves) {
    const consumer = table.moves[soleConsumers(move, uses)?.sole ?? -1];
    if (!consumer || !isSure(move)) continue;
    const isFree = move.lastTools === 0;
    const isSame = move.firstTools === move.lastTools && move.lastTools === consumer.firstTools;
    if (isFree || isSame) return replaced(table.moves, [move, consumer], joined(move, consumer));
  }
  return undefined;
};

const replaced = (moves: readonly Move[], pair: readonly Move[], by: Move): readonly Move[] => {
  const at = Math.min(...pair.map((move) => moves.indexOf(move)));
  const rest = moves.filter((move, index) => index === at || !pair.includes(move));
  return rest.map((move, index) => (index === at ? by : move));
};

/** What are two moves as one, the second following the success of the first? */
export const joined = (first: Move, second: Move): Move => ({
  members: [...first.members, ...second.members],
  needs: union(first.needs, without(second.needs, first.gives)),
  clauses: [...first.clauses, ...clausesOnlyIn(second, first)],
  gives: union(first.gives, second.gives),
  milliseconds: first.milliseconds + first.success * second.milliseconds,
  success: first.success * second.success,
  damage: first.damage + first.success * second.damage,
  firstTools: first.firstTools || second.firstTools,
  lastTools: second.lastTools || first.lastTools,
  isLazy: false,
});

const clausesOnlyIn = (move: Move, other: Move): readonly (readonly Bits[])[] => {
  const known = new Set(other.clauses.map(clauseKey));
  return move.clauses.filter((clause) => !known.has(clauseKey(clause)));
};

/** Is the target out of reach without this move, chances left aside? */
const isLandmark = (table: MoveTable, move: Move): boolean => {
  const left = table.moves.filter((other) => other !== move);
  return !isWithin(table.target, reachedFacts(left, emptyBits(table.factCount)));
};

/** Which facts can come about from these by these moves, chances left aside? */
export const reachedFacts = (moves: readonly Move[], from: Bits): Bits => {
  const facts = from.slice();
  for (let grown = true; grown; ) {
    grown = false;
    for (const move of moves) {
      if (isWithin(move.gives, facts) || !isOpenMove(move, facts)) continue;
      addAll(facts, move.gives);
      grown = true;
    }
  }
  return facts;
};

/** Do these facts let a move be made? */
export const isOpenMove = (move: Move, facts: Bits): boolean => {
  if (!isWithin(move.needs, facts)) return false;
  for (const clause of move.clauses) if (!clause.some((alternative) => isWithin(alternative, facts))) return false;
  return true;
};
