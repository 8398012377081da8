import type { Findings } from './findings.ts';
import { itemOf, itemsOf, type PlainMap, textOf } from './plain.ts';

const SAID = ['steps', 'fastener', 'tool', 'remoteActions'] as const;

/**
 * Does the maker's score sheet contradict itself, or the parts of the record? That the sheet and the bench know different parts
 * may be true of both, a false declaration being what an assessor looks for: it is a warning and can stay.
 */
export const checkScoreSheet = (data: PlainMap, findings: Findings): void => {
  const parts = partsByRole(data);
  for (const [role, line] of itemsOf(itemOf(itemOf(data, 'product'), 'scoreSheet')?.parts)) {
    const said = SAID.filter((field) => line[field] !== undefined);
    if (line.absent === true) {
      for (const field of said) addSaidOfAbsent(role, { field, value: line[field] }, findings);
      addSheetWithoutPart(role, parts.get(role), findings);
    } else if (said.length > 0) addSheetWithPart(role, parts.get(role), findings);
  }
};

const addSaidOfAbsent = (
  role: string,
  { field, value }: { readonly field: string; readonly value: unknown },
  findings: Findings,
): void =>
  findings.add(['product', 'scoreSheet', 'parts', role, field], {
    value,
    message: 'the product has no such part, yet this is said of it',
    remedy: 'Remove it, or remove "absent".',
  });

interface RoleParts {
  /** The first part of the role that is there, and the first known not to exist. */
  readonly present?: string;
  readonly absent?: string;
}

/** Gone through once, so that a sheet with as many lines as a map may have costs no square. */
const partsByRole = (data: PlainMap): ReadonlyMap<string, RoleParts> => {
  const byRole = new Map<string, RoleParts>();
  for (const [id, part] of itemsOf(data.parts)) {
    const role = textOf(part.role);
    if (role === undefined) continue;
    byRole.set(role, { [part.absent === true ? 'absent' : 'present']: id, ...byRole.get(role) });
  }
  return byRole;
};

const addSheetWithoutPart = (role: string, parts: RoleParts | undefined, findings: Findings): void => {
  const first = parts?.present;
  if (first === undefined) return;
  findings.add(['product', 'scoreSheet', 'parts', role, 'absent'], {
    value: true,
    severity: 'warning',
    message: `the score sheet says that there is no ${spoken(role)}, yet parts/${first} is one`,
    remedy: `Correct the role of parts/${first} or the line; where the maker declares it so, keep both: the index goes by the part.`,
  });
};

const addSheetWithPart = (role: string, parts: RoleParts | undefined, findings: Findings): void => {
  const first = parts?.absent;
  if (first === undefined || parts?.present !== undefined) return;
  findings.add(['product', 'scoreSheet', 'parts', role], {
    value: role,
    at: 'key',
    severity: 'warning',
    message: `the score sheet speaks of a ${spoken(role)}, yet parts/${first} says that the product has none`,
    remedy: `Remove "absent" from parts/${first}, or write "absent" into the line; where the maker declares it so, keep both: the declared basis goes by the sheet.`,
  });
};

const spoken = (role: string): string => role.replaceAll('-', ' ');
