import type { Explained, MissingFact } from '#quantity/explained';
import { SCORES, type Score } from '#schemes/eu-2023-1669/weights';
import type { BasisVerdict } from '#verdict/verdict';

/** The open facts that one score waits for. */
export type ScoreFacts = readonly MissingFact[];

/** Under which scores do the open facts of a basis stand, and which under none? */
export interface FactsByScore {
  readonly groups: ReadonlyMap<Score, ScoreFacts>;
  readonly elsewhere: ScoreFacts;
}

/**
 * To which scores do the open facts of a basis belong? To every score whose explanation names the fact; a fact that only
 * bounds the ends, and so stands in no explanation, goes by its place in the record.
 */
export function factsByScore({ tree, missing }: Pick<BasisVerdict, 'tree' | 'missing'>): FactsByScore {
  const named = new Map(tree.children.map((child) => [child.id, keysBelow(child)]));
  const placed = missing.map((fact) => {
    const byTree = SCORES.filter((score) => named.get(score)?.has(keyOf(fact)));
    return { fact, scores: byTree.length > 0 ? byTree : scoresByAddress(fact.address) };
  });
  const of = (score: Score) => placed.filter(({ scores }) => scores.includes(score)).map(({ fact }) => fact);
  return {
    groups: new Map(SCORES.map((score) => [score, of(score)])),
    elsewhere: placed.filter(({ scores }) => scores.length === 0).map(({ fact }) => fact),
  };
}

function keyOf({ address, what }: MissingFact): string {
  return JSON.stringify([address, what]);
}

function keysBelow(node: Explained): ReadonlySet<string> {
  return new Set([...node.missing.map(keyOf), ...node.children.flatMap((child) => [...keysBelow(child)])]);
}

/** Trials decide the route, and with it steps, fasteners and tools alike. */
const places: readonly (readonly [RegExp, readonly Score[]])[] = [
  [/^supply\/software\b/, ['SSU']],
  [/^supply\/information\b/, ['SRI']],
  [/^supply\/parts\b/, ['SSP']],
  [/^parts\/[^/]+\/remote/, ['SDD']],
  [/^parts\/[^/]+\/trials$/, ['SDD', 'SF', 'ST']],
  [/^fasteners\//, ['SF']],
  [/^tools\//, ['ST']],
  [/^spares\/[^/]+\/contents$/, ['SF', 'ST']],
];

function scoresByAddress(address: string): readonly Score[] {
  return places.find(([pattern]) => pattern.test(address))?.[1] ?? [];
}
