import type { MissingFact } from '#quantity/explained';
import { damageIndex } from '#record/log/damage-index';
import type { RouteSource } from '#routes/problem/from-record';
import type { SequenceItem } from '#routes/sequence/bench-sequence';
import type { Finding, PartFinding } from '../input.ts';

/** Which damage record is meant, and what does it say was damaged? */
interface DamageDone {
  readonly id: string;
  readonly what: string;
}

/** What did the entries of an observed sequence damage? Damage ruled to come from the route; and what is not decided of damage to function or safety. */
export interface ObservedHarm {
  readonly damaging: readonly DamageDone[];
  readonly undecided: readonly MissingFact[];
}

/** Which recorded damage lies on this sequence? What its entries did or may have done; a slip of the hand and an unruled cosmetic damage have no effect. */
export const observedHarm = (items: readonly SequenceItem[], { assessment, device }: RouteSource): ObservedHarm => {
  const damaging = new Map<string, DamageDone>();
  const undecided = new Map<string, MissingFact>();
  const index = damageIndex(assessment, device);
  for (const { address } of items)
    for (const { damage, verdict } of index.get(address) ?? []) {
      const record = assessment.damage?.[damage];
      const done = { id: damage, what: record?.what ?? damage };
      if (verdict === 'damaging') damaging.set(damage, done);
      else if (verdict === 'undecided' && record?.severity !== 'cosmetic')
        undecided.set(damage, record?.ruling === 'route-damages-product' ? culprit(done) : rulingOn(done));
    }
  return { damaging: [...damaging.values()], undecided: [...undecided.values()] };
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
        why: `${finding.name} came off by a route ruled to damage the product (${harm.damaging.map(({ what }) => what).join('; ')})`,
        evidence: [],
      }
    : { state: 'open', missing: harmMissing(finding, harm) };

/** What would settle it? The rulings, and what was open of the steps anyway: whether an action that damages was needed. */
const harmMissing = ({ steps }: PartFinding, { damaging, undecided }: ObservedHarm): readonly MissingFact[] => {
  const missing = [...undecided, ...(steps.state === 'open' ? steps.missing : [])];
  return missing.length > 0 ? missing : damaging.map(rulingOn);
};

/** Ruled to come from the route, but from which of several actions? */
const culprit = ({ id, what }: DamageDone): MissingFact => ({
  address: `damage/${id}`,
  what: `which action did the damage “${what}”`,
  remedy: 'name it in the entry that did it, or narrow down before and after which entries it came',
});

const rulingOn = ({ id, what }: DamageDone): MissingFact => ({
  address: `damage/${id}/ruling`,
  what: `whether the damage “${what}” comes from the route or from a slip of the hand`,
  remedy: 'rule on it with a reason, or show the route again without damage',
});
