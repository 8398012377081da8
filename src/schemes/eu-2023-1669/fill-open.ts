import { roleName } from '../role-name.ts';
import { STEPS_WITHOUT_BOUND } from './index-figures.ts';
import {
  type FastenerClass,
  type Finding,
  INFORMATION_ITEMS,
  type IndexInput,
  type InformationAccess,
  type PartFinding,
  PRIORITY_ROLES,
  type PriorityRole,
  type SpareAvailability,
  type ToolClass,
} from './input.ts';
import { UPDATE_KINDS } from './update-ladder-rules.ts';

/** How is each kind of open finding settled at one end of what is possible? */
export interface End {
  readonly steps: (open: OpenFinding<number>) => Finding<number>;
  readonly fastener: (open: OpenFinding<FastenerClass>) => Finding<FastenerClass>;
  readonly tool: (open: OpenFinding<ToolClass>) => Finding<ToolClass>;
  /** As one value, or absent only where a part that is there would be below the scale for one of these reasons. */
  readonly absent: boolean | readonly RuledOutBy[];
  readonly endUsers: (role: PriorityRole) => boolean;
  readonly professionals: boolean;
  readonly years: number;
  readonly informationToEndUsers: InformationAccess;
  readonly informationToProfessionals: InformationAccess;
}

/** Which finding puts a part that is there below the scale? */
type RuledOutBy = 'steps' | 'fastener' | 'tool' | 'spare';

type OpenFinding<T> = Extract<Finding<T>, { state: 'open' }>;

const settled = <T>(value: T): Finding<T> => ({ state: 'known', value, evidence: [], note: 'assumed' });

const below: Finding<never> = {
  state: 'not-scorable',
  why: 'nothing is established, below the scale included',
  evidence: [],
};

const worstOr =
  <T>(floor: T, isBelow: (value: T) => boolean) =>
  (open: OpenFinding<T>): Finding<T> =>
    settled(open.worst === undefined || isBelow(open.worst) ? floor : open.worst);

const isBelowScale = (value: string): boolean => value === 'below-scale';

/** The lowest value on the scale: numbers throughout, nothing below the scale that is not already known to be. */
export const FLOOR: End = {
  steps: worstOr<number>(STEPS_WITHOUT_BOUND, () => false),
  fastener: worstOr<FastenerClass>('removable', isBelowScale),
  tool: worstOr<ToolClass>('commercial', isBelowScale),
  absent: false,
  endUsers: (role) => role === 'display',
  professionals: true,
  years: 5,
  informationToEndUsers: 'not-offered',
  informationToProfessionals: 'reasonable-fee',
};

const worstOrBelow = <T>(open: OpenFinding<T>): Finding<T> => (open.worst === undefined ? below : settled(open.worst));

const REASONS: readonly RuledOutBy[] = ['steps', 'fastener', 'tool', 'spare'];

/**
 * The lowest on the scale where a part that may be absent would otherwise rule out any score: the first for R as a whole,
 * the others for one score each.
 */
export const SCORABLE_FLOORS: readonly [End, ...End[]] = [
  { ...FLOOR, absent: REASONS },
  ...REASONS.map((reason) => ({ ...FLOOR, absent: [reason] })),
];

/** The lowest value at all, below the scale where that is possible. */
export const STRICT: End = {
  ...FLOOR,
  steps: worstOrBelow,
  fastener: worstOrBelow,
  tool: worstOrBelow,
  endUsers: () => false,
  professionals: false,
  years: 0,
  informationToProfessionals: 'not-offered',
};

/** The highest value on the scale. */
export const BEST: End = {
  steps: (open) => settled(open.best ?? 1),
  fastener: (open) => settled(open.best ?? 'reusable'),
  tool: (open) => settled(open.best ?? 'none'),
  absent: true,
  endUsers: () => true,
  professionals: true,
  years: 7,
  informationToEndUsers: 'free',
  informationToProfessionals: 'free',
};

const fill = <T>(finding: Finding<T>, settle: (open: OpenFinding<T>) => Finding<T>): Finding<T> =>
  finding.state === 'open' ? settle(finding) : finding;

const fillPart = (part: PartFinding, end: End): PartFinding => ({
  ...part,
  steps: fill(part.steps, end.steps),
  fastener: fill(part.fastener, end.fastener),
  tool: fill(part.tool, end.tool),
  ...(part.explained && { explained: keepSettled(part) }),
});

/** A tree of the caller's stays below a figure only where that figure was settled already. */
const keepSettled = (part: PartFinding): NonNullable<PartFinding['explained']> =>
  Object.fromEntries(
    Object.entries(part.explained ?? {}).filter(([key]) => part[key as 'steps' | 'fastener' | 'tool'].state !== 'open'),
  );

const nothing: OpenFinding<never> = { state: 'open', missing: [] };

/** A part that must be there though none was found: open in everything but its being there. */
const unseen = (role: PriorityRole): PartFinding => ({
  role,
  name: `${roleName(role)}, not found yet`,
  pairingSteps: nothing,
  steps: nothing,
  fastener: nothing,
  tool: nothing,
});

const isBelow = (finding: Finding<unknown>): boolean =>
  finding.state === 'not-scorable' || (finding.state === 'known' && finding.value === 'below-scale');

const isKnownNot = (finding: Finding<boolean>): boolean =>
  finding.state === 'not-scorable' || (finding.state === 'known' && !finding.value);

/** Would a part, if it is there, be below the scale whatever else turns out, for one of these reasons? */
const ruledOutIfPresent = (input: IndexInput, role: PriorityRole, reasons: readonly RuledOutBy[]): boolean => {
  const { endUsers, professionals } = input.spares[role];
  return reasons.some((reason) => {
    if (reason === 'spare') return isKnownNot(role === 'display' ? endUsers : professionals);
    return input.parts[role].instances.some((part) => isBelow(part[reason]));
  });
};

/** Is there a part that may be absent and would rule out any score if it were there? */
export const absenceDecides = (input: IndexInput): boolean =>
  PRIORITY_ROLES.some((role) => input.parts[role].absent.state === 'open' && ruledOutIfPresent(input, role, REASONS));

const fillRole = (input: IndexInput, role: PriorityRole, end: End): IndexInput['parts'][PriorityRole] => {
  const isAbsent = typeof end.absent === 'boolean' ? end.absent : ruledOutIfPresent(input, role, end.absent);
  const absent = fill(input.parts[role].absent, () => settled(isAbsent));
  const found = input.parts[role].instances;
  const present = absent.state === 'known' && !absent.value;
  const instances = found.length === 0 && present ? [unseen(role)] : found;
  return { absent, instances: instances.map((part) => fillPart(part, end)) };
};

const fillSpare = (spare: SpareAvailability, role: PriorityRole, end: End): SpareAvailability => ({
  endUsers: fill(spare.endUsers, () => settled(end.endUsers(role))),
  professionals: fill(spare.professionals, () => settled(end.professionals)),
});

const mapKeys = <K extends string, T>(keys: readonly K[], make: (key: K) => T): Record<K, T> =>
  Object.fromEntries(keys.map((key) => [key, make(key)])) as Record<K, T>;

const fillInformation = (input: IndexInput, end: End): IndexInput['information'] =>
  mapKeys(INFORMATION_ITEMS, (item) => ({
    endUsers: fill(input.information[item].endUsers, () => settled(end.informationToEndUsers)),
    professionals: fill(input.information[item].professionals, () => settled(end.informationToProfessionals)),
  }));

/** Open years at the upper end stop at the whole years of what is known, so that no reading of part-years goes below it. */
const fillYears = (input: IndexInput, end: End): IndexInput['updates'] => {
  const kinds = UPDATE_KINDS.map((kind) => input.updates[kind]);
  const known = kinds.flatMap((finding) => (finding.state === 'known' ? [Math.floor(finding.value)] : []));
  const years = Math.min(end.years, ...(end === BEST ? known : []));
  return mapKeys(UPDATE_KINDS, (kind) => fill(input.updates[kind], () => settled(years)));
};

/** What is an input with every open finding settled at one end, in one weight column? */
export const completeAt = (input: IndexInput, foldable: boolean, end: End): IndexInput => ({
  foldable: fill(input.foldable, () => settled(foldable)),
  parts: mapKeys(PRIORITY_ROLES, (role) => fillRole(input, role, end)),
  spares: mapKeys(PRIORITY_ROLES, (role) => fillSpare(input.spares[role], role, end)),
  updates: fillYears(input, end),
  information: fillInformation(input, end),
});

/** Is nothing open that decides a score? */
export const isSettled = (input: IndexInput): boolean => {
  const ofParts = PRIORITY_ROLES.flatMap((role) => {
    const { absent, instances } = input.parts[role];
    const { endUsers, professionals } = input.spares[role];
    const unseenPart = absent.state === 'known' && !absent.value && instances.length === 0 ? [nothing] : [];
    const found = instances.flatMap((part) => [part.steps, part.fastener, part.tool]);
    return [absent, endUsers, professionals, ...unseenPart, ...found];
  });
  const ofInformation = INFORMATION_ITEMS.flatMap((item) => Object.values(input.information[item]));
  const all = [input.foldable, ...ofParts, ...Object.values(input.updates), ...ofInformation];
  return all.every((finding) => finding.state !== 'open');
};
