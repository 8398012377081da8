import { members } from './bits.ts';
import type { Move, MoveTable } from './moves.ts';

/** Where is a fact needed? `key` is equal for facts needed in the same places; `sole` is the one move whose needs alone hold it. */
export interface Consumers {
  readonly key: string;
  readonly sole: number | undefined;
}

/** Where is each fact of a table needed, and how many moves give it? By fact number. */
export interface FactUses {
  readonly consumers: readonly Consumers[];
  readonly givers: readonly number[];
}

/** Where is each fact of a table needed, and how many moves give it? */
export const factUses = (table: MoveTable): FactUses => {
  const places: string[][] = Array.from({ length: table.factCount }, () => []);
  const givers: number[] = new Array(table.factCount).fill(0);
  for (const [index, move] of table.moves.entries()) {
    for (const fact of members(move.gives)) givers[fact] = (givers[fact] ?? 0) + 1;
    for (const fact of members(move.needs)) places[fact]?.push(`${index}`);
    for (const [clause, alternatives] of move.clauses.entries())
      for (const [at, facts] of alternatives.entries())
        for (const fact of members(facts)) places[fact]?.push(`${index}:${clause}:${at}`);
  }
  for (const fact of members(table.target)) places[fact]?.push('target');
  return { consumers: places.map(consumersAt), givers };
};

const consumersAt = (places: readonly string[]): Consumers => {
  const only = Number(places[0]);
  return { key: places.join(), sole: places.length === 1 && Number.isInteger(only) ? only : undefined };
};

/** What stands for the consumers of a move, when it alone gives its facts and all of them are needed in the same places? */
export const soleConsumers = (move: Move, uses: FactUses): Consumers | undefined => {
  const facts = members(move.gives);
  const first = uses.consumers[facts[0] ?? -1];
  if (!first) return undefined;
  const isOne = facts.every((fact) => uses.givers[fact] === 1 && uses.consumers[fact]?.key === first.key);
  return isOne ? first : undefined;
};
