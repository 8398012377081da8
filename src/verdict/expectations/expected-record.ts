import type { Assessment } from '#record/schema/assessment';
import { INFORMATION_ITEMS, PRIORITY_ROLES } from '#schemes/eu-2023-1669/input';
import { UPDATE_KINDS } from '#schemes/eu-2023-1669/update-ladder-rules';
import { settledRemoteNeeds } from '../swaps/remote-needs.ts';

/** One named set of assumptions of a record. */
export type Expectation = NonNullable<Assessment['expectations']>[string];

type Assumption = NonNullable<Expectation['assumes']>[number];
type Standing = 'established' | 'announced' | 'expected' | 'unknown' | undefined;

/**
 * What would the record say if the expectation held? Announced or expected facts count as established, kits hold what is
 * listed, nothing needs remote pairing, or supply nobody knows is what the law demands at the least; whichever it names. What
 * it does not name stays as it is, so that the width on it lies within the width without it. The order in which it names them
 * does not matter: what was announced or is expected is taken first, and only what is then unknown as the law demands.
 */
export const expectedRecord = (assessment: Assessment, { assumes = [] }: Expectation): Assessment =>
  (Object.keys(ASSUMPTIONS) as Assumption[])
    .filter((assumption) => assumes.includes(assumption))
    .reduce((record, assumption) => ASSUMPTIONS[assumption](record), assessment);

/** Parts that must go to end users as well: Regulation (EU) 2023/1670, Annex II B (D) 1.1(1)(c)(i), of those the index weighs. */
const TO_END_USERS: readonly string[] = ['battery', 'display', 'back-cover'];

/** The least years for which updates must be free where they are provided: Regulation (EU) 2023/1670, Annex II B 1.2(6), D 1.2(5). */
const LEAST_YEARS = 5;

/** In the order in which they are taken. */
const ASSUMPTIONS: Readonly<Record<Assumption, (record: Assessment) => Assessment>> = {
  'announced-holds': (record) => withStanding(record, 'announced'),
  'expected-holds': (record) => withStanding(record, 'expected'),
  'kits-as-listed': (record) => (record.spares ? { ...record, spares: mapped(record.spares, asListed) } : record),
  'no-remote-pairing': (record) => (record.parts ? { ...record, parts: unpairedParts(record, record.parts) } : record),
  'unknown-supply-as-law-demands': (record) => ({ ...record, supply: demandedSupply(record) }),
};

type Spare = NonNullable<Assessment['spares']>[string];
type Part = NonNullable<Assessment['parts']>[string];

const asListed = (spare: Spare): Spare =>
  spare.contents?.fasteners || spare.contents?.tools
    ? { ...spare, contents: { ...spare.contents, standing: 'established' } }
    : spare;

/** What the record answers already stays answered, and what its swaps settled stays settled. */
const unpairedParts = (record: Assessment, parts: Readonly<Record<string, Part>>): Record<string, Part> => {
  const settled = settledRemoteNeeds(record);
  return Object.fromEntries(
    Object.entries(parts).map(([id, part]) => [
      id,
      {
        ...part,
        remoteNotification: part.remoteNotification ?? settled.get(id)?.remoteNotification ?? false,
        remoteAuthorisation: part.remoteAuthorisation ?? settled.get(id)?.remoteAuthorisation ?? false,
      },
    ]),
  );
};

/** A map with each member changed. */
const mapped = <T>(map: Readonly<Record<string, T>>, change: (member: T) => T): Record<string, T> =>
  Object.fromEntries(Object.entries(map).map(([id, member]) => [id, change(member)]));

/** Every fact of supply and spares that stands so, as established; nested facts by their own standing. */
const withStanding = (record: Assessment, standing: 'announced' | 'expected'): Assessment => ({
  ...record,
  ...(record.supply ? { supply: settled(record.supply, standing) } : {}),
  ...(record.spares ? { spares: settled(record.spares, standing) } : {}),
});

const settled = <T>(value: T, standing: 'announced' | 'expected'): T => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  const entries = Object.entries(value).map(([key, inner]) =>
    key === 'standing' && inner === standing ? [key, 'established'] : [key, settled(inner, standing)],
  );
  return Object.fromEntries(entries) as T;
};

const isKnown = (standing: Standing): boolean => standing === 'established';

const demandedSupply = (record: Assessment): NonNullable<Assessment['supply']> => ({
  ...record.supply,
  parts: {
    ...record.supply?.parts,
    ...Object.fromEntries(PRIORITY_ROLES.map((role) => [role, demandedOffers(record, role)])),
  },
  information: {
    ...record.supply?.information,
    ...Object.fromEntries(
      INFORMATION_ITEMS.map((item) => {
        const stated = record.supply?.information?.[item];
        const open = !isKnown(stated?.professionals?.standing) || stated?.professionals?.access === undefined;
        return [item, open ? { ...stated, professionals: AT_A_FEE } : stated];
      }),
    ),
  },
  software: {
    ...record.supply?.software,
    ...Object.fromEntries(
      UPDATE_KINDS.map((kind) => {
        const stated = record.supply?.software?.[kind];
        const open = !isKnown(stated?.standing) || stated?.years === undefined;
        return [kind, open ? { years: LEAST_YEARS, standing: 'established' } : stated];
      }),
    ),
  },
});

/** Professionals may be asked a reasonable and proportionate fee: Regulation (EU) 2023/1670, Annex II B (D) 1.1(2)(d). */
const AT_A_FEE = { access: 'reasonable-fee', standing: 'established' } as const;

const DELIVERED = { how: 'delivered', standing: 'established' } as const;

type Offers = NonNullable<NonNullable<NonNullable<Assessment['supply']>['parts']>['battery']>;

/** Offers of a role as they stand, what is open taken as the law demands; end users beyond the law's list stay open. */
const demandedOffers = (record: Assessment, role: (typeof PRIORITY_ROLES)[number]): Offers => {
  const stated = record.supply?.parts?.[role];
  const open = (audience: 'endUsers' | 'professionals'): boolean =>
    !isKnown(stated?.[audience]?.standing) && !offeredByPart(record, role, audience);
  return {
    ...stated,
    ...(TO_END_USERS.includes(role) && open('endUsers') ? { endUsers: DELIVERED } : {}),
    ...(open('professionals') ? { professionals: DELIVERED } : {}),
  };
};

/** Do the spares of the parts of a role already say who gets them? */
const offeredByPart = (record: Assessment, role: string, audience: 'endUsers' | 'professionals'): boolean => {
  const parts = Object.entries(record.parts ?? {}).flatMap(([id, part]) => (part.role === role ? [id] : []));
  return Object.values(record.spares ?? {}).some(
    (spare) =>
      spare[audience] !== undefined &&
      isKnown(spare[audience]?.standing ?? spare.standing) &&
      spare.replaces.some((id) => parts.includes(id)),
  );
};
