import type { Assessment } from '#record/schema/assessment';
import { INFORMATION_ITEMS, PRIORITY_ROLES, type PriorityRole } from '#schemes/eu-2023-1669/input';
import { smallRecord } from './small-record.ts';

interface Line {
  readonly absent?: true;
  readonly steps?: number;
  readonly fastener?: string;
  readonly tool?: string;
  /** None unless said; `undefined` leaves open whether there are any. */
  readonly remoteActions?: number | undefined;
}

/** The constructed device X, battery in 8 steps as printed. */
const LINES: Readonly<Partial<Record<PriorityRole, Line>>> = {
  battery: { steps: 8, fastener: 'resupplied', tool: 'basic' },
  display: { steps: 12, fastener: 'resupplied', tool: 'with-spare' },
  'back-cover': { steps: 4, fastener: 'resupplied', tool: 'commercial' },
  'front-camera': { steps: 9, fastener: 'reusable', tool: 'basic' },
  'rear-camera': { steps: 8, fastener: 'reusable', tool: 'basic' },
  'charging-port': { steps: 14, fastener: 'reusable', tool: 'basic' },
  button: { steps: 17, fastener: 'resupplied', tool: 'basic' },
  microphone: { steps: 14, fastener: 'reusable', tool: 'basic' },
  speaker: { steps: 9, fastener: 'reusable', tool: 'basic' },
};

/** What differs from device X? */
export interface SheetChanges {
  readonly parts?: Readonly<Partial<Record<PriorityRole, Line>>>;
  /** Every role with this one line. */
  readonly all?: Line;
  readonly foldable?: { readonly foldingDisplay?: boolean; readonly hinge?: boolean };
  readonly years?: number;
  readonly endUsers?: readonly PriorityRole[];
  readonly how?: string;
  readonly information?: { readonly endUsers: string; readonly professionals: string };
  readonly interpretations?: Readonly<Record<string, { readonly value: string }>>;
}

/** The constructed device X as a record that holds a score sheet and supply facts only. */
export const scoreSheetX = (changes: SheetChanges = {}): Assessment => {
  const { years = 7, how = 'orderable', endUsers = ['display', 'battery', 'back-cover'] } = changes;
  const { information = { endUsers: 'not-offered', professionals: 'free' } } = changes;
  const offer = (is: boolean) => ({ how: is ? how : 'refused', standing: 'established' });
  const onTerms = (access: string) => ({ access, standing: 'established' });
  const lines: SheetChanges['parts'] = changes.all
    ? Object.fromEntries(PRIORITY_ROLES.filter((role) => role !== 'hinge').map((role) => [role, changes.all]))
    : { ...LINES, ...changes.parts };
  const stated = Object.entries(lines).map(([role, line]) => [
    role,
    line.absent ? line : { remoteActions: 0, ...line },
  ]);
  const update = { years, standing: 'established' };
  return smallRecord({
    product: {
      foldable: changes.foldable ?? { foldingDisplay: false, hinge: false },
      reference: undefined,
      scoreSheet: { parts: Object.fromEntries(stated) },
    },
    specimens: {},
    supply: {
      parts: Object.fromEntries(
        PRIORITY_ROLES.map((role) => [role, { endUsers: offer(endUsers.includes(role)), professionals: offer(true) }]),
      ),
      information: Object.fromEntries(
        INFORMATION_ITEMS.map((item) => [
          item,
          { endUsers: onTerms(information.endUsers), professionals: onTerms(information.professionals) },
        ]),
      ),
      software: { security: update, corrective: update, functionality: update },
    },
    ...(changes.interpretations ? { interpretations: changes.interpretations } : {}),
  });
};
