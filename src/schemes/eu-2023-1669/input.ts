import type { Explained, MissingFact } from '#quantity/explained';
import { PRIORITY_ROLES } from '#record/schema/priority-roles';

/** Which parts does the index weigh? The hinge (or mechanical display folding mechanism) only for foldables. */
export { PRIORITY_ROLES };

/** One priority-part role of Annex IV point 5. */
export type PriorityRole = (typeof PRIORITY_ROLES)[number];

/** Fastener classes that carry points (Annex I (17) to (19)); `below-scale` has none and is not scorable. */
export type FastenerClass = 'reusable' | 'resupplied' | 'removable' | 'below-scale';

/** Tool classes that carry points (Annex IV point 5); `below-scale` stands for proprietary tools and is not scorable. */
export type ToolClass = 'none' | 'basic' | 'with-spare' | 'with-product' | 'commercial' | 'below-scale';

/**
 * Is something established, still open, or outside the scale? Evidence ids walk back to the record. An open finding may
 * carry the worst and the best value still possible; without them the whole scale is, not scorable included.
 */
export type Finding<T> =
  | { readonly state: 'known'; readonly value: T; readonly evidence: readonly string[]; readonly note?: string }
  | { readonly state: 'open'; readonly missing: readonly MissingFact[]; readonly worst?: T; readonly best?: T }
  | { readonly state: 'not-scorable'; readonly why: string; readonly evidence: readonly string[] };

/** What was found for one instance of a priority part on one basis? Steps include the pairing steps. */
export interface PartFinding {
  readonly role: PriorityRole;
  /** Part id in the record; undefined where only a score sheet is known. */
  readonly part?: string;
  readonly name: string;
  /** The pairing share of the steps (5 for each remote notification or authorisation), already counted in `steps`. */
  readonly pairingSteps: Finding<number>;
  readonly steps: Finding<number>;
  readonly fastener: Finding<FastenerClass>;
  readonly tool: Finding<ToolClass>;
  /** The caller's own trees of the step count and the two classes, hung below the points they decide. */
  readonly explained?: { readonly steps?: Explained; readonly fastener?: Explained; readonly tool?: Explained };
}

/** Who can get a spare part of a role? Both answers may be open; getting it as end user implies getting it as professional. */
export interface SpareAvailability {
  readonly endUsers: Finding<boolean>;
  readonly professionals: Finding<boolean>;
}

/** How many years of updates are guaranteed from the end of placing on the market, a kind each [years, may be fractional]. */
export interface UpdateYears {
  readonly security: Finding<number>;
  readonly corrective: Finding<number>;
  readonly functionality: Finding<number>;
}

/** The eleven items of repair information of Regulation (EU) 2023/1670 Annex II B (D for tablets) 1.1(2)(e). */
export const INFORMATION_ITEMS = [
  'identification',
  'exploded-view',
  'wiring-diagrams',
  'board-diagrams',
  'equipment-list',
  'repair-manual',
  'fault-codes',
  'diagnosis-values',
  'software-instructions',
  'failure-logs',
  'professional-repair-access',
] as const;

/** One of the eleven items of repair information. */
export type InformationItem = (typeof INFORMATION_ITEMS)[number];

/** On what terms does an audience get an item? A reasonable fee is one that does not deter (Annex IV point 5). */
export type InformationAccess = 'free' | 'reasonable-fee' | 'deterring-fee' | 'not-offered';

/** How can end users and professionals get one item of repair information? */
export interface InformationFinding {
  readonly endUsers: Finding<InformationAccess>;
  readonly professionals: Finding<InformationAccess>;
}

/** Everything the index is computed from, on one basis, under one set of interpretations. */
export interface IndexInput {
  /** Which weight column applies (interpretation `foldable`). */
  readonly foldable: Finding<boolean>;
  /** All instances found a role; an empty list with `absent` known true scores 5 thrice. */
  readonly parts: Readonly<
    Record<PriorityRole, { readonly absent: Finding<boolean>; readonly instances: readonly PartFinding[] }>
  >;
  readonly spares: Readonly<Record<PriorityRole, SpareAvailability>>;
  readonly updates: UpdateYears;
  readonly information: Readonly<Record<InformationItem, InformationFinding>>;
}
