import { listed } from '#quantity/counts';
import type { Explained, FigureValue, MissingFact } from '#quantity/explained';
import { roleName } from '../role-name.ts';
import { evidenceOf, missingInAll, missingOf, OPEN, word } from './figure.ts';
import type { Finding, IndexInput, PriorityRole, SpareAvailability } from './input.ts';
import { PRIORITY_ROLES } from './input.ts';
import { climbLadder, type Requirement, type Rung } from './ladder.ts';
import { clause } from './method.ts';

/** One row of the table of SSP: which parts end users get as well; all others go to professionals at least. */
export interface SpareRow {
  readonly points: number;
  readonly endUsers: readonly PriorityRole[] | 'all';
}

/**
 * How many points does the availability of spare parts earn? A strict ladder, not a count.
 * Source: Regulation (EU) 2023/1669, Annex IV point 5, table of SSP (read).
 */
export const SPARE_TABLE: readonly SpareRow[] = [
  { points: 5, endUsers: 'all' },
  { points: 4, endUsers: ['display', 'battery', 'back-cover', 'front-camera', 'rear-camera'] },
  { points: 3, endUsers: ['display', 'battery', 'back-cover'] },
  { points: 2, endUsers: ['display', 'battery'] },
  { points: 1, endUsers: ['display'] },
];

/** To whom does a row of the table have the parts go, in words? */
export const spareRowWords = ({ endUsers }: SpareRow): string =>
  endUsers === 'all'
    ? 'every priority part to end users and professionals'
    : `${listed(endUsers.map(roleName))} to end users, the others to professionals`;

const isKnown = (finding: Finding<boolean>, value: boolean): boolean =>
  finding.state === 'known' && finding.value === value;

const answer = (finding: Finding<boolean>): FigureValue => {
  if (finding.state === 'open') return OPEN;
  return word(finding.state === 'known' && finding.value ? 'yes' : 'no');
};

/** Getting a part as end user implies getting it as professional; not getting it as professional implies the converse. */
const offered = (spare: SpareAvailability, toEndUsers: boolean): { value: FigureValue; from: Finding<boolean> } => {
  if (isKnown(spare.endUsers, true)) return { value: word('yes'), from: spare.endUsers };
  if (!toEndUsers) return { value: answer(spare.professionals), from: spare.professionals };
  if (
    spare.endUsers.state === 'open' &&
    answer(spare.professionals).kind === 'word' &&
    !isKnown(spare.professionals, true)
  )
    return { value: word('no'), from: spare.professionals };
  return { value: answer(spare.endUsers), from: spare.endUsers };
};

const requirement = (input: IndexInput, role: PriorityRole, toEndUsers: boolean): readonly Requirement[] => {
  const { absent } = input.parts[role];
  const needless = role === 'hinge' && isKnown(input.foldable, false);
  if (needless || isKnown(absent, true)) return [];
  const { value, from } = offered(input.spares[role], toEndUsers);
  const given = value.kind === 'word' && value.value === 'yes';
  const doubts: MissingFact[] = [...missingOf(absent), ...(role === 'hinge' ? missingOf(input.foldable) : [])];
  const doubtful = absent.state === 'open' || (role === 'hinge' && input.foldable.state === 'open');
  const audience = toEndUsers ? 'endUsers' : 'professionals';
  return [
    {
      input: {
        address: `spares/${role}/${audience}`,
        label: `${roleName(role)} to ${toEndUsers ? 'end users' : 'professionals'}`,
        value: given || !doubtful ? value : OPEN,
        evidence: evidenceOf(from),
      },
      missing: missingInAll([missingOf(from), doubts]),
    },
  ];
};

const rungOf = (input: IndexInput, row: SpareRow): Rung => {
  const toEndUsers = (role: PriorityRole): boolean => row.endUsers === 'all' || row.endUsers.includes(role);
  return {
    points: row.points,
    says: spareRowWords(row),
    requirements: PRIORITY_ROLES.flatMap((role) => requirement(input, role, toEndUsers(role))),
  };
};

/**
 * What is SSP, and what would the next rung ask for? Annex IV point 5, table of SSP; the hinge only for foldables; a part
 * the product does not have is not asked for (reading ours). A display for professionals only is below the scale.
 */
export const spareScore = (input: IndexInput): Explained =>
  climbLadder(
    { id: 'SSP', label: 'spare parts', clause: clause('Annex IV point 5, table of SSP') },
    SPARE_TABLE.map((row) => rungOf(input, row)),
  );
