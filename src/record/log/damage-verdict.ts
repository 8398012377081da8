import type { Assessment, Entry } from '../schema/assessment.ts';

/** What does the damage recorded at an entry say of what it did? */
export type DamageVerdict = 'whole' | 'undecided' | 'damaging';

/**
 * Did what came off by this entry come whole? It did without damage, or where every damage is ruled a slip of the hand; it is
 * damaging once a damage is ruled to come from the route (a route that damages the product is no route); undecided else.
 */
export const damageVerdict = (entry: Entry, assessment: Assessment): DamageVerdict => {
  const rulings = (entry.damage ?? []).map((id) => assessment.damage?.[id]?.ruling ?? 'undecided');
  if (rulings.includes('route-damages-product')) return 'damaging';
  return rulings.includes('undecided') ? 'undecided' : 'whole';
};
