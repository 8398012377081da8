import type { Assessment } from '#record/schema/assessment';
import {
  type Finding,
  INFORMATION_ITEMS,
  type IndexInput,
  type InformationAccess,
  type InformationFinding,
  type InformationItem,
  PRIORITY_ROLES,
  type PriorityRole,
  type SpareAvailability,
  type UpdateYears,
} from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { isAvailable, takesFoldableWeights } from '../readings.ts';

/** Any role a part may have: who is sold a spare part can be asked of each. */
type Role = NonNullable<NonNullable<Assessment['parts']>[string]['role']>;

type Offer = NonNullable<NonNullable<Assessment['spares']>[string]['endUsers']>;

/** What the product itself brings to the index, the same on every basis: weights, spare parts, updates, information. */
export const productFacts = (
  assessment: Assessment,
  readings: Interpretations,
): Pick<IndexInput, 'foldable' | 'spares' | 'updates' | 'information'> => ({
  foldable: foldableFinding(assessment, readings),
  spares: Object.fromEntries(
    PRIORITY_ROLES.map((role) => [role, spareAvailability(assessment, role, readings)]),
  ) as Record<PriorityRole, SpareAvailability>,
  updates: updateYears(assessment),
  information: Object.fromEntries(
    INFORMATION_ITEMS.map((item) => [item, informationFinding(assessment, item)]),
  ) as Record<InformationItem, InformationFinding>,
});

/** Does the product take the foldable weights (row 19)? Open where nothing says it. */
const foldableFinding = (assessment: Assessment, readings: Interpretations): Finding<boolean> => {
  const stated = assessment.product.foldable;
  const hinge = Object.values(assessment.parts ?? {}).some((part) => part.role === 'hinge' && part.absent !== true);
  const answer = takesFoldableWeights(
    { foldingDisplay: stated?.foldingDisplay, hinge: stated?.hinge ?? (hinge || undefined) },
    readings,
  );
  if (answer !== undefined) return { state: 'known', value: answer, evidence: stated?.evidence ?? [] };
  return {
    state: 'open',
    missing: [
      {
        address: 'product/foldable',
        what: 'whether the product counts as foldable',
        remedy: 'record whether the display folds and whether there is a hinge',
      },
    ],
  };
};

const offersFor = (
  assessment: Assessment,
  role: Role,
  audience: 'endUsers' | 'professionals',
): { perPart: readonly (readonly Offer[])[]; role: Offer | undefined } => {
  const ids = Object.entries(assessment.parts ?? {})
    .filter(([, part]) => part.role === role && part.absent !== true)
    .map(([id]) => id);
  const spares = Object.values(assessment.spares ?? {});
  const perPart = ids.map((id) =>
    spares
      .filter((spare) => spare.replaces.includes(id))
      .flatMap((spare) => {
        const offer = spare[audience];
        return offer ? [{ ...offer, standing: offer.standing ?? spare.standing }] : [];
      }),
  );
  return { perPart, role: assessment.supply?.parts?.[role]?.[audience] };
};

/** Can an audience get every part of a role (row 18)? Only an established offer, shown as far as the reading asks, settles it. */
const availability = (
  assessment: Assessment,
  { role, audience }: { readonly role: Role; readonly audience: 'endUsers' | 'professionals' },
  readings: Interpretations,
): Finding<boolean> => {
  const offers = offersFor(assessment, role, audience);
  const groups = offers.role ? [[offers.role]] : offers.perPart;
  const answers = groups.map((group) => groupAnswer(group, readings));
  const evidence = groups.flat().flatMap((offer) => offer.evidence ?? []);
  if (answers.includes('no')) return { state: 'known', value: false, evidence };
  if (answers.length > 0 && answers.every((answer) => answer === 'yes'))
    return { state: 'known', value: true, evidence };
  const whom = audience === 'endUsers' ? 'end users' : 'professional repairers';
  return {
    state: 'open',
    missing: [
      {
        address: `supply/parts/${role}/${audience}`,
        what: `whether ${whom} can get the ${role.replaceAll('-', ' ')} as a spare part`,
        remedy: 'order it in one Member State and keep the dated confirmation',
      },
    ],
  };
};

const groupAnswer = (offers: readonly Offer[], readings: Interpretations): 'yes' | 'no' | 'open' => {
  const shown = offers
    .filter((offer) => offer.standing === 'established' && offer.how !== undefined)
    .map((offer) => isAvailable(offer.how ?? 'listed', readings));
  if (shown.includes(true)) return 'yes';
  return shown.length > 0 && shown.length === offers.length && shown.every((answer) => answer === false)
    ? 'no'
    : 'open';
};

/** Who can get the spare parts of a role (row 18)? Getting one as end user implies getting it as professional. */
export const spareAvailability = (assessment: Assessment, role: Role, readings: Interpretations): SpareAvailability => {
  const endUsers = availability(assessment, { role, audience: 'endUsers' }, readings);
  const professionals = availability(assessment, { role, audience: 'professionals' }, readings);
  const implied =
    endUsers.state === 'known' && endUsers.value && professionals.state === 'open' ? endUsers : professionals;
  return { endUsers, professionals: implied };
};

const updateYears = (assessment: Assessment): UpdateYears => {
  const kind = (name: 'security' | 'corrective' | 'functionality'): Finding<number> => {
    const stated = assessment.supply?.software?.[name];
    if (stated?.standing === 'established' && stated.years !== undefined)
      return { state: 'known', value: stated.years, evidence: stated.evidence ?? [] };
    return {
      state: 'open',
      missing: [
        {
          address: `supply/software/${name}/years`,
          what: `for how many years after the last unit ${name} updates are guaranteed`,
          remedy: 'find the dated guarantee and quote its clause',
        },
      ],
    };
  };
  return { security: kind('security'), corrective: kind('corrective'), functionality: kind('functionality') };
};

const informationFinding = (assessment: Assessment, item: InformationItem): InformationFinding => {
  const audience = (who: 'endUsers' | 'professionals'): Finding<InformationAccess> => {
    const stated = assessment.supply?.information?.[item]?.[who];
    if (stated?.standing === 'established' && stated.access !== undefined)
      return { state: 'known', value: stated.access, evidence: stated.evidence ?? [] };
    const whom = who === 'endUsers' ? 'end users' : 'professional repairers';
    return {
      state: 'open',
      missing: [
        {
          address: `supply/information/${item}/${who}`,
          what: `on what terms ${whom} get the ${item.replaceAll('-', ' ')}`,
          remedy: 'look for it on the maker’s site, or ask for it, and keep the dated answer',
        },
      ],
    };
  };
  return { endUsers: audience('endUsers'), professionals: audience('professionals') };
};
