import type { MissingFact } from '#quantity/explained';
import type { Assessment } from '#record/schema/assessment';
import { roleName } from '../role-name.ts';

/** One part of the record under a role. */
export interface RolePart {
  readonly id: string;
  readonly name: string;
}

/** Which parts of a role are there: a list, none for certain, or not known? */
export type PartsOfRole = readonly RolePart[] | 'none' | 'unknown';

/**
 * Which parts of a role has the product? None where the record says so; no hinge in a product whose display does not fold and
 * that has none.
 */
export const partsOfRole = ({ parts, product }: Assessment, role: string): PartsOfRole => {
  const all = Object.entries(parts ?? {}).filter(([, part]) => part.role === role);
  const there = all.filter(([, part]) => part.absent !== true);
  if (there.length > 0) return there.map(([id, part]) => ({ id, name: part.name ?? id.replaceAll('-', ' ') }));
  if (all.length > 0) return 'none';
  if (role === 'hinge' && product.foldable?.hinge === false) return 'none';
  return 'unknown';
};

/** What is missing where a role is not on record at all? */
export const missingRole = (role: string): MissingFact => ({
  address: 'parts',
  what: `whether the product has this part: ${roleName(role)}`,
  remedy: 'record the part, or record it as absent',
});
