import {
  type FastenerClass,
  type Finding,
  INFORMATION_ITEMS,
  type IndexInput,
  type InformationAccess,
  type PartFinding,
  PRIORITY_ROLES,
  type PriorityRole,
  type ToolClass,
} from '#schemes/eu-2023-1669/input';

/** A settled finding without evidence. */
export const known = <T>(value: T): Finding<T> => ({ state: 'known', value, evidence: [] });

/** An open finding that names one missing fact at an address. */
export const open = <T>(address: string): Finding<T> => ({
  state: 'open',
  missing: [{ address, what: `${address} is not known`, remedy: `Establish ${address}.` }],
});

/** A finding below the scale. */
export const belowScale = <T>(why: string): Finding<T> => ({ state: 'not-scorable', why, evidence: [] });

/** One line of a score sheet: steps, worst fastener class, worst tool class. */
export type SheetLine = readonly [steps: number, fastener: FastenerClass, tool: ToolClass];

/** What was found for one part, all settled. */
export const partFinding = (
  role: PriorityRole,
  [steps, fastener, tool]: SheetLine,
  more: Partial<PartFinding> = {},
): PartFinding => ({
  role,
  name: role,
  pairingSteps: known(0),
  steps: known(steps),
  fastener: known(fastener),
  tool: known(tool),
  ...more,
});

type Parts = IndexInput['parts'];
type Spares = IndexInput['spares'];

const byRole = <T>(make: (role: PriorityRole) => T): Record<PriorityRole, T> =>
  Object.fromEntries(PRIORITY_ROLES.map((role) => [role, make(role)])) as Record<PriorityRole, T>;

/** Parts from sheet lines; a role without a line is absent. */
export const partsOf = (lines: Partial<Record<PriorityRole, SheetLine>>): Parts =>
  byRole((role) => {
    const line = lines[role];
    return { absent: known(line === undefined), instances: line ? [partFinding(role, line)] : [] };
  });

/** Spares where these roles go to end users and all go to professionals. */
export const sparesFor = (endUsers: readonly PriorityRole[] | 'all'): Spares =>
  byRole((role) => ({
    endUsers: known(endUsers === 'all' || endUsers.includes(role)),
    professionals: known(true),
  }));

/** All three kinds of updates for the same number of years. */
export const updatesFor = (years: number): IndexInput['updates'] => ({
  security: known(years),
  corrective: known(years),
  functionality: known(years),
});

/** Every item of information on the same terms, an audience each. */
export const informationFor = (
  endUsers: InformationAccess,
  professionals: InformationAccess,
): IndexInput['information'] =>
  Object.fromEntries(
    INFORMATION_ITEMS.map((item) => [item, { endUsers: known(endUsers), professionals: known(professionals) }]),
  ) as IndexInput['information'];

/** The lines of the constructed device X, battery as printed in 8 steps. */
const DEVICE_X_LINES: Readonly<Partial<Record<PriorityRole, SheetLine>>> = {
  battery: [8, 'resupplied', 'basic'],
  display: [12, 'resupplied', 'with-spare'],
  'back-cover': [4, 'resupplied', 'commercial'],
  'front-camera': [9, 'reusable', 'basic'],
  'rear-camera': [8, 'reusable', 'basic'],
  'charging-port': [14, 'reusable', 'basic'],
  button: [17, 'resupplied', 'basic'],
  microphone: [14, 'reusable', 'basic'],
  speaker: [9, 'reusable', 'basic'],
};

/** The constructed device X, vector V0, with some lines or fields changed. */
export const deviceX = (
  lines: Partial<Record<PriorityRole, SheetLine>> = {},
  more: Partial<IndexInput> = {},
): IndexInput => ({
  foldable: known(false),
  parts: partsOf({ ...DEVICE_X_LINES, ...lines }),
  spares: sparesFor(['display', 'battery', 'back-cover']),
  updates: updatesFor(7),
  information: informationFor('not-offered', 'free'),
  ...more,
});
