import type { DevicePart } from '#record/device/device';
import type { RouteSource } from '#routes/problem/from-record';
import { type Finding, type IndexInput, type PartFinding, PRIORITY_ROLES, type PriorityRole } from '../input.ts';
import type { Interpretations } from '../interpretations.ts';
import { bestBasis } from './best-basis.ts';
import type { RouteProblems } from './best-search.ts';
import { declaredBasis, sheetFinding } from './declared-basis.ts';
import { observedBasis } from './observed-basis.ts';
import type { PartBasis } from './part-basis.ts';
import { readingsKey } from './part-readings.ts';
import { productFacts } from './product-facts.ts';
import { type SheetDisagreement, sheetDisagreements } from './sheet-disagreements.ts';

/** On which of the three bases? */
export type BasisName = 'declared' | 'observed' | 'best';

/** One basis ready for the index: the input as it stands, the input with open trials left open, and what each part rests on. */
export interface BasisInputs {
  readonly basis: BasisName;
  readonly main: IndexInput;
  readonly wide: IndexInput;
  readonly parts: ReadonlyMap<string, PartBasis>;
  /** Where the maker's score sheet and procedures say different things of one role. */
  readonly disagreements: readonly SheetDisagreement[];
}

/** What is asked: the record's source, its planning problems, and the readings. */
export interface BasisRequest {
  readonly source: RouteSource;
  readonly problems: RouteProblems;
  readonly readings: Interpretations;
  /** What the basis says of some parts, where it is known to be the same as for a record before. */
  readonly kept?: ReadonlyMap<string, PartBasis>;
}

/** What does one basis bring to the index? Undefined where the record holds nothing for that basis. */
export const basisInputs = (basis: BasisName, request: BasisRequest): BasisInputs | undefined => {
  const { source, readings } = request;
  const parts = priorityParts(source);
  const found = new Map<string, PartBasis>();
  for (const part of parts) {
    const judged = request.kept?.get(part.id) ?? judgePart(basis, part, request);
    if (judged) found.set(part.id, judged);
  }
  const declared = basis === 'declared';
  const sheetLines = declared ? Object.keys(source.assessment.product.scoreSheet?.parts ?? {}).length : 0;
  if (found.size === 0 && sheetLines === 0) return undefined;
  const facts = productFacts(source.assessment, readings);
  const input = (end: 'main' | 'wide'): IndexInput => ({
    ...facts,
    parts: Object.fromEntries(
      PRIORITY_ROLES.map((role) => [
        role,
        roleInput(role, { parts: parts.filter((part) => part.role === role), found, source, readings, basis, end }),
      ]),
    ) as unknown as IndexInput['parts'],
  });
  const disagreements = declared ? sheetDisagreements({ source, readings, parts, judged: found }) : [];
  return { basis, main: input('main'), wide: input('wide'), parts: found, disagreements };
};

const priorityParts = (source: RouteSource): readonly DevicePart[] =>
  [...source.device.parts.values()].filter((part) => (PRIORITY_ROLES as readonly string[]).includes(part.role ?? ''));

const judgedParts = new WeakMap<RouteSource, Map<string, PartBasis | undefined>>();

/** What a basis says of a part, worked out once for all readings that cannot tell it apart. */
const judgePart = (basis: BasisName, part: DevicePart, request: BasisRequest): PartBasis | undefined => {
  const known = judgedParts.get(request.source) ?? new Map<string, PartBasis | undefined>();
  judgedParts.set(request.source, known);
  const key = [basis, part.id, readingsKey(basis, request)].join('\n');
  if (!known.has(key)) known.set(key, judgeAnew(basis, part, request));
  return known.get(key);
};

const judgeAnew = (basis: BasisName, part: DevicePart, request: BasisRequest): PartBasis | undefined => {
  const { source, readings } = request;
  if (basis === 'best') return bestBasis(part, request.problems, { source, readings });
  return basis === 'observed' ? observedBasis(part, { source, readings }) : declaredBasis(part, { source, readings });
};

interface RoleContext {
  readonly parts: readonly DevicePart[];
  readonly found: ReadonlyMap<string, PartBasis>;
  readonly source: RouteSource;
  readonly readings: Interpretations;
  readonly basis: BasisName;
  readonly end: 'main' | 'wide';
}

/**
 * What is known of each part of a role? What its own sequence gives; on the declared basis, of a part that no procedure frees,
 * what the score sheet says of the role; without either it is open.
 */
const roleInput = (role: PriorityRole, context: RoleContext): IndexInput['parts'][PriorityRole] => {
  const { parts, found, source, readings, basis, end } = context;
  const declared = (part?: DevicePart): PartFinding | undefined =>
    basis === 'declared' ? sheetFinding(role, { source, readings, ...(part ? { part } : {}) }) : undefined;
  const alone = parts.length === 0 ? declared() : undefined;
  if (alone) return { absent: { state: 'known', value: false, evidence: [] }, instances: [alone] };
  const instances = parts.map((part) => found.get(part.id)?.[end] ?? declared(part) ?? notFound(part, basis));
  return { absent: absence(role, context), instances };
};

/** Has the product no part of this role (row 15)? Known where the record says so or has one; else open. */
const absence = (role: PriorityRole, { parts, source, basis }: RoleContext): Finding<boolean> => {
  const gone = Object.values(source.assessment.parts ?? {}).find((part) => part.role === role && part.absent === true);
  if (parts.length > 0) return { state: 'known', value: false, evidence: [] };
  const line = source.assessment.product.scoreSheet?.parts[role];
  if (gone) return { state: 'known', value: true, evidence: gone.evidence ?? [] };
  if (basis === 'declared' && line?.absent === true)
    return { state: 'known', value: true, evidence: source.assessment.product.scoreSheet?.evidence ?? [] };
  return {
    state: 'open',
    missing: [
      {
        address: 'parts',
        what: `whether the product has a ${role.replaceAll('-', ' ')}`,
        remedy: 'record the part, or record it as absent',
      },
    ],
  };
};

const notFound = (part: DevicePart, basis: BasisName): PartFinding => {
  const what =
    basis === 'observed'
      ? `how ${part.name} comes off the reference specimen`
      : `the maker's procedure for ${part.name}`;
  const remedy =
    basis === 'observed'
      ? 'take it off on the reference specimen in a session that begins complete'
      : 'find the repair information of the maker and record its steps';
  const missing = [{ address: `parts/${part.id}`, what, remedy }];
  const open = { state: 'open' as const, missing };
  return {
    role: part.role as PriorityRole,
    part: part.id,
    name: part.name,
    pairingSteps: open,
    steps: open,
    fastener: open,
    tool: open,
  };
};
