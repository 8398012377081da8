import type { MissingFact } from '#quantity/explained';
import { damageVerdict } from '#record/log/damage-verdict';
import type { RouteSource } from '#routes/problem/from-record';
import type { SequenceItem } from '#routes/sequence/bench-sequence';
import type { Finding, PartFinding } from '../input.ts';

/** What did the entries of an observed sequence damage? Ids of damage ruled to come from the route, and of damage without a ruling that touches function or safety. */
export interface ObservedHarm {
  readonly damaging: readonly string[];
  readonly undecided: readonly string[];
}

/** Which recorded damage lies on this sequence? What its entries name; a slip of the hand and an unruled cosmetic damage have no effect. */
export const observedHarm = (items: readonly SequenceItem[], { assessment }: RouteSource): ObservedHarm => {
  const damaging: string[] = [];
  const undecided: string[] = [];
  for (const { address } of items) {
    const [, session = '', , entry = ''] = address.split('/');
    const record = assessment.sessions?.[session]?.entries[entry];
    for (const id of record?.damage ?? []) {
      const verdict = damageVerdict({ at: 0, damage: [id] }, assessment);
      if (verdict === 'damaging') damaging.push(id);
      else if (verdict === 'undecided' && assessment.damage?.[id]?.severity !== 'cosmetic') undecided.push(id);
    }
  }
  return { damaging: [...new Set(damaging)], undecided: [...new Set(undecided)] };
};

/**
 * What does the harm do to a finding? A route that damages the product is no route (row 22), so that the part is not scorable
 * by it; while nobody has ruled on a damage the steps are open, not scorable included.
 */
export const withHarm = (finding: PartFinding, harm: ObservedHarm, isEverywhere: boolean): PartFinding => {
  if (harm.damaging.length === 0 && harm.undecided.length === 0) return finding;
  const { steps: _steps, ...trees } = finding.explained ?? {};
  return { ...finding, steps: harmedSteps(finding, harm, isEverywhere), explained: trees };
};

const harmedSteps = (finding: PartFinding, harm: ObservedHarm, isEverywhere: boolean): Finding<number> =>
  harm.damaging.length > 0 && isEverywhere
    ? {
        state: 'not-scorable',
        why: `${finding.name} came off by a route ruled to damage the product (${harm.damaging.join(', ')})`,
        evidence: [],
      }
    : { state: 'open', missing: [...harm.damaging, ...harm.undecided].map(rulingMissing) };

const rulingMissing = (id: string): MissingFact => ({
  address: `damage/${id}/ruling`,
  what: `whether the damage ${id} comes from the route or from a slip of the hand`,
  remedy: 'rule on it with a reason, or show the route again without damage',
});
