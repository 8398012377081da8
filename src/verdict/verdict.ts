import type { Explained, MissingFact } from '#quantity/explained';
import type { DutyFinding } from '#schemes/duties/duty-finding';
import type { PriorityRole } from '#schemes/eu-2023-1669/input';
import type { HeldReading, ReadBy } from './laboratory/with-laboratory.ts';
import type { SwapsVerdict } from './swaps/swaps-verdict.ts';

/** On which of the three bases does a figure stand? Declared by the maker, observed on the reference specimen, best found. */
export type Basis = 'declared' | 'observed' | 'best';

/** What does the index say on one basis, in plain form? Decimals as text so that no digit is lost; null is open or not scorable. */
export interface IndexFigures {
  readonly R: string | null;
  readonly classUnrounded: string | null;
  readonly classRounded: string | null;
  readonly scores: Readonly<Record<'SDD' | 'SF' | 'ST' | 'SSP' | 'SSU' | 'SRI', string | null>>;
  readonly parts: Readonly<
    Record<
      string,
      {
        readonly steps: number | null;
        readonly DD: number | null;
        readonly F: number | null;
        readonly T: number | null;
      }
    >
  >;
  readonly notScorable: readonly { readonly what: string; readonly why: string }[];
}

/** One basis with its sound width: the figures as they stand, and the lowest and highest still possible where they differ. */
export interface BasisVerdict {
  readonly basis: Basis;
  readonly figures: IndexFigures;
  readonly tree: Explained;
  readonly low?: IndexFigures;
  readonly high?: IndexFigures;
  /** True where what is open could leave the product without a score at all. */
  readonly mayBeNotScorable: boolean;
  /**
   * `settled`: one letter whatever the rest; `open`: facts missing; `interpretation-dependent`: another reading, another letter;
   * `unweighed`: one letter by these readings, the other readings being worked out (never in a whole verdict).
   */
  readonly letter: {
    readonly state: 'settled' | 'open' | 'interpretation-dependent' | 'unweighed';
    readonly letters: readonly string[];
    /** Set where the reading decides whether there is a score at all. */
    readonly orNotScorable?: true;
  };
  /** Distance of R to the nearest class threshold, in words, with its sign. */
  readonly distance?: { readonly toThreshold: string; readonly threshold: string; readonly letterBeyond: string };
  readonly missing: readonly MissingFact[];
}

/** One line of a part's step ledger: what was done in the step, with what, and why the step ended. */
export interface LedgerLine {
  /** Step number of the first count in the line, and of the last (two tools at once are two steps). */
  readonly from: number;
  readonly to: number;
  readonly does: readonly string[];
  readonly tools: readonly string[];
  readonly fasteners: readonly {
    readonly id: string;
    readonly name: string;
    readonly kind: string;
    readonly count: number;
    readonly leaves: string;
  }[];
  readonly ended: string;
  /** Mean time [s] with median and spread where measured. */
  readonly seconds?: number;
  readonly spread?: { readonly median: number; readonly low: number; readonly high: number; readonly n: number };
  readonly damage?: string;
  readonly inStretch: boolean;
  readonly evidence: readonly string[];
}

/** One route to a part: its ledger and totals. */
export interface RouteVerdict {
  readonly steps: number;
  readonly pairingSteps: number;
  readonly seconds?: number;
  readonly missingDurations: readonly string[];
  readonly fastenerPoints: number | null;
  readonly toolPoints: number | null;
  readonly actions: readonly string[];
  readonly lines: readonly LedgerLine[];
  readonly proved: boolean;
  readonly bound?: number;
  /** Was it done from end to end in one session, or is it put together from several? */
  readonly performed: 'end-to-end' | 'put-together' | 'document';
  readonly session?: string;
}

/** A point of the front of steps, expected time and chance of damage. */
export interface FrontPoint {
  readonly steps: number;
  readonly expectedSeconds: number;
  readonly chanceOfDamage: number;
  readonly actions: readonly string[];
}

/** Everything found about how to reach one part. */
export interface PartVerdict {
  readonly part: string;
  readonly name: string;
  readonly role?: string;
  readonly priority?: PriorityRole;
  readonly face?: string;
  readonly within?: string;
  /** Steps by what is shown (undefined: no route shown) and the fewest that nothing excludes. */
  readonly depth: { readonly shown?: number; readonly atLeast?: number; readonly why?: string };
  readonly best?: RouteVerdict;
  readonly observed?: RouteVerdict;
  readonly observedLow?: number;
  readonly declared?: RouteVerdict;
  readonly leastTime?: { readonly seconds: number; readonly actions: readonly string[]; readonly proved: boolean };
  readonly expected?: {
    readonly seconds: number;
    readonly stranded: number;
    readonly damage: number;
    readonly likeliest: readonly string[];
    readonly note?: string;
    readonly exact: boolean;
  };
  readonly front?: readonly FrontPoint[];
  readonly mandatory?: readonly string[];
  readonly blocking?: readonly string[];
  readonly after?: string;
  readonly reversible: { readonly shown: boolean; readonly why: string };
  readonly missing: readonly MissingFact[];
}

/** What would the routes to all priority parts together save were this fastener already released? */
export interface BurdenVerdict {
  readonly fastener: string;
  readonly name: string;
  readonly steps: number;
  readonly seconds: number;
}

/** One interpretation as read here, its other readings, and what each would change. */
export interface InterpretationVerdict {
  readonly row: string;
  readonly id: string;
  readonly kind: 'switch' | 'fact';
  readonly question: string;
  readonly value: string;
  readonly isDefault: boolean;
  readonly reason?: string;
  /** How the laboratory reads it, where it says; `holds` is false where the assessment chose for itself. */
  readonly laboratory?: HeldReading;
  readonly others: readonly {
    readonly value: string;
    /** The changes in words, basis by basis. */
    readonly effect: string;
    readonly changesLetter: boolean;
    /** What the reading would change of the index, on the bases where it would; steps stand in the words alone. */
    readonly changes: readonly ReadingChange[];
  }[];
}

/** From what to what a figure would change. */
export interface Change<Value> {
  readonly from: Value;
  readonly to: Value;
}

/** What another reading would change of the index on one basis; a member is missing where nothing changes. */
export interface ReadingChange {
  readonly basis: Basis;
  /** The lowest R still possible; null where no number is. */
  readonly low?: Change<string | null>;
  /** The highest R still possible; null where no number is. */
  readonly high?: Change<string | null>;
  readonly letters?: Change<readonly string[]>;
  /** Whether facts still missing may leave no score. */
  readonly mayBeNotScorable?: Change<boolean>;
}

/** A caution with its figure and source, before the action that combines the hazards. */
export interface Caution {
  readonly id: string;
  readonly title: string;
  readonly text: string;
  readonly source: string;
  readonly where: readonly string[];
}

/** A thing found in the log that does not fit, with the entry that proves it. */
export interface Remark {
  readonly path: string;
  readonly text: string;
}

/** The verdict on one assessment: every figure, its width and its explanation. Same record and method, same bytes. */
export interface Verdict {
  readonly heading: "assessor's determination";
  readonly scheme: string;
  readonly method: string;
  readonly consolidated: string;
  readonly recordDigest: string;
  readonly product: {
    readonly name: string;
    readonly maker?: string;
    readonly category?: string;
    readonly invented: boolean;
    readonly released?: string;
  };
  readonly laboratory?: string;
  /** Whose readings hold where the assessment chose none, and in which edition; absent where no laboratory's were given. */
  readonly readBy?: ReadBy;
  readonly scope:
    | { readonly inScope: true }
    /** Facts are missing; the figures are given as if it were in scope. */
    | { readonly inScope: 'open'; readonly missing: readonly { readonly what: string; readonly why: string }[] }
    | { readonly inScope: false; readonly outOfScope: string; readonly article: string };
  readonly examined: {
    readonly specimens: readonly { readonly id: string; readonly text: string; readonly reference: boolean }[];
    readonly sessions: readonly {
      readonly id: string;
      readonly kind: string;
      readonly specimen: string;
      readonly operator: string;
      readonly start: string;
      readonly entries: number;
      readonly seconds: number;
    }[];
    readonly counts: {
      readonly parts: number;
      readonly fasteners: number;
      readonly pieces: number;
      readonly entries: number;
      readonly trials: number;
    };
    /** Questions put before an act made them unanswerable, and not tried; missing where there is none. */
    readonly untried?: readonly {
      readonly address: string;
      readonly part: string;
      readonly stillIn: readonly string[];
      readonly session: string;
      readonly note?: string;
    }[];
  };
  readonly bases: readonly BasisVerdict[];
  readonly sheet?: {
    readonly consequences: readonly string[];
    readonly refuted: readonly string[];
    readonly surveillance?: string;
  };
  readonly parts: readonly PartVerdict[];
  readonly faces: readonly { readonly id: string; readonly name: string }[];
  readonly burden: readonly BurdenVerdict[];
  readonly interpretations: readonly InterpretationVerdict[];
  /** Legal duties, row by row: observations, no advice. */
  readonly duties?: readonly DutyFinding[];
  /** What the software makes of foreign parts; absent where the record has no swaps. */
  readonly swaps?: SwapsVerdict;
  readonly open: readonly MissingFact[];
  readonly damage: readonly { readonly id: string; readonly text: string; readonly evidence: readonly string[] }[];
  readonly cautions: readonly Caution[];
  readonly remarks: readonly Remark[];
  readonly evidence: readonly {
    readonly id: string;
    readonly kind: string;
    readonly says: string;
    readonly sha256?: string;
  }[];
  readonly sources: readonly { readonly id: string; readonly text: string }[];
}

/** What is there of a verdict before routes, burden and other readings are worked out. */
export type FiguresVerdict = Omit<Verdict, 'parts' | 'burden' | 'interpretations'>;
