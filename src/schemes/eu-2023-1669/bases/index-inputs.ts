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

/** On which of the three bases? */
export type BasisName = 'declared' | 'observed' | 'best';

/** One basis ready for the index: the input as it stands, the input with open trials left open, and what each part rests on. */
export interface BasisInputs {
  readonly basis: BasisName;
  readonly main: IndexInput;
  readonly wide: IndexInput;
  readonly parts: ReadonlyMap<string, PartBasis>;
}

/** What is asked: the record's source, its planning problems, and the readings. */
export interface BasisRequest {
  readonly source: RouteSource;
  readonly problems: RouteProblems;
  readonly readings: Interpretations;
}

/** What does one basis bring to the index? Undefined where the record holds nothing for that basis. */
export const basisInputs = (basis: BasisName, request: BasisRequest): BasisInputs | undefined => {
  const { source, readings } = request;
  const parts = priorityParts(source);
  const found = new Map<string, PartBasis>();
  for (const part of parts) {
    const judged = judgePart(basis, part, request);
    if (judged) found.set(part.id, judged);
  }
  const sheet = basis === 'declared' ? sheetFindings(source, readings) : new Map<PriorityRole, PartFinding>();
  if (found.size === 0 && sheet.size === 0 && !sheetAbsences(source, basis)) return undefined;
  const facts = productFacts(source.assessment, readings);
  const input = (end: 'main' | 'wide'): IndexInput => ({
    ...facts,
    parts: Object.fromEntries(
      PRIORITY_ROLES.map((role) => [
        role,
        roleInput(role, { parts: parts.filter((part) => part.role === role), found, sheet, source, basis, end }),
      ]),
    ) as unknown as IndexInput['parts'],
  });
  return { basis, main: input('main'), wide: input('wide'), parts: found };
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

const judgeAnew = (
  basis: BasisName,
  part: DevicePart,
  { source, problems, readings }: BasisRequest,
): PartBasis | undefined => {
  if (basis === 'best') return bestBasis(part, problems, { source, readings });
  return basis === 'observed' ? observedBasis(part, { source, readings }) : declaredBasis(part, { source, readings });
};

const sheetFindings = (source: RouteSource, readings: Interpretations): Map<PriorityRole, PartFinding> =>
  new Map(
    PRIORITY_ROLES.flatMap((role) => {
      const finding = sheetFinding(source, role, readings);
      return finding ? [[role, finding] as const] : [];
    }),
  );

const sheetAbsences = (source: RouteSource, basis: BasisName): boolean =>
  basis === 'declared' &&
  Object.values(source.assessment.product.scoreSheet?.parts ?? {}).some((line) => line?.absent === true);

interface RoleContext {
  readonly parts: readonly DevicePart[];
  readonly found: ReadonlyMap<string, PartBasis>;
  readonly sheet: ReadonlyMap<PriorityRole, PartFinding>;
  readonly source: RouteSource;
  readonly basis: BasisName;
  readonly end: 'main' | 'wide';
}

const roleInput = (role: PriorityRole, context: RoleContext): IndexInput['parts'][PriorityRole] => {
  const { parts, found, sheet, end } = context;
  const declared = sheet.get(role);
  const judged = parts.flatMap((part) => found.get(part.id)?.[end] ?? []);
  if (declared && judged.length < Math.max(1, parts.length))
    return { absent: { state: 'known', value: false, evidence: [] }, instances: [declared] };
  const instances = parts.map((part) => found.get(part.id)?.[end] ?? notFound(part, context.basis));
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
