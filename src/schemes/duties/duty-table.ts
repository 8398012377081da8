import type { DutyFact, DutyFigure, MARKETS } from '#record/schema/duty-facts';

/** Where does a law hold? The Union, or a state of the USA (ISO 3166-2). */
export type Jurisdiction = 'EU' | (typeof MARKETS)[number];

/**
 * How sure is a row? `read`: in the legal text; `summary`: in an official summary, the text itself not; `secondary`: in a text
 * about it; `memory`: not verified, an editable default.
 */
export type DutyMark = 'read' | 'summary' | 'secondary' | 'memory';

/**
 * Which day decides whether a row holds, and from when? `placed`: units placed on the Union market; `made`: first manufacture;
 * `sold`: first sale or use there; `conduct`: the day of what was seen. `from` is that day or later, `after` later only.
 */
export interface DateTest {
  readonly decides: 'placed' | 'made' | 'sold' | 'conduct';
  readonly from?: string;
  readonly after?: string;
  /** Another day for some categories. */
  readonly fromFor?: Readonly<Record<string, string>>;
}

/** What endurance lets small parts be sold in a larger assembly only [presses, cycles]? */
export interface LargerAssembly {
  readonly ingress?: string;
  readonly power: number;
  readonly volume: number;
  readonly port: number;
}

/** One thing that is looked for in the record. */
export type Check =
  | { readonly kind: 'fact'; readonly fact: DutyFact; readonly is?: boolean }
  | FigureCheck
  | { readonly kind: 'offered'; readonly to: 'professionals' | 'both'; readonly parts?: readonly string[] }
  | { readonly kind: 'refused-to-end-users'; readonly parts: readonly string[] }
  | SeparateCheck
  | {
      readonly kind: 'delivered';
      readonly firstYears: number;
      readonly within: number;
      readonly afterwards: number;
    }
  | { readonly kind: 'items'; readonly asks: 'offered' | 'fair-fee' }
  | ReleaseCheck
  | { readonly kind: 'ingress'; readonly code?: string; readonly byProduct?: Readonly<Record<string, string>> }
  | EffectsCheck
  | { readonly kind: 'serialised' }
  | { readonly kind: 'portable-battery' }
  | { readonly kind: 'updates'; readonly years: number }
  | MarketCheck
  | { readonly kind: 'market-price'; readonly from: number; readonly below?: number }
  | { readonly kind: 'market-years'; readonly atLeast: number }
  | { readonly kind: 'either-row'; readonly rows: readonly string[] }
  | { readonly kind: 'one-of'; readonly of: readonly (readonly Check[])[] };

/** A figure against its threshold; between `atMost` and `openUpTo` the law tells cases apart that the table does not. */
export interface FigureCheck {
  readonly kind: 'figure';
  readonly figure: DutyFigure;
  readonly atLeast?: number;
  readonly atMost?: number;
  readonly above?: number;
  readonly openUpTo?: number;
}

/** Listed parts sold one by one, apart from what may come together. */
export interface SeparateCheck {
  readonly kind: 'separate';
  readonly together: readonly (readonly string[])[];
  readonly small: readonly string[];
  readonly larger: Readonly<Record<string, LargerAssembly>>;
}

/** A way to the part whose fasteners and tools are of these classes, without heat or solvent where that is said. */
export interface ReleaseCheck {
  readonly kind: 'release';
  readonly fasteners: readonly string[] | 'any';
  readonly tools: readonly string[];
  readonly without?: readonly ('heat' | 'solvent')[];
}

/**
 * Effects of swapped parts that must not be seen; with `alert`, only where the notice misleads; with `by`, only where the pairing
 * of parts does it, else wherever software does.
 */
export interface EffectsCheck {
  readonly kind: 'effects';
  readonly effects: readonly string[];
  readonly by?: 'pairing';
  readonly alert?: 'misleading';
  readonly exempt?: 'biometric';
  readonly grounds?: boolean;
  /** Kinds of pieces that none of the effects must have been seen with, each, before they may be called absent. */
  readonly fitted?: readonly string[];
}

/** What is known of one market. */
export interface MarketCheck {
  readonly kind: 'market';
  readonly field: 'repairMeans' | 'givenToAuthorised' | 'businessOnly';
  readonly is?: boolean;
}

/** One duty: whom and what it holds for, from when, on which condition, what it asks in our words, and how sure the row is. */
export interface DutyRow {
  readonly id: string;
  readonly title: string;
  readonly clause: string;
  readonly products?: readonly string[] | 'any';
  readonly parts: readonly string[] | 'any';
  readonly dates?: readonly DateTest[];
  /** Months after the first placing at which the duty begins, if that is later than the law. */
  readonly begins?: number;
  readonly condition?: string;
  readonly when?: readonly Check[];
  readonly asks: string;
  readonly checks: readonly Check[];
  readonly mark: DutyMark;
  readonly source?: string;
  readonly note?: string;
}

/** The rows of one law, with what holds for all of them. */
export interface DutyTable {
  readonly title: string;
  readonly identifier: string;
  readonly published?: string;
  readonly consolidated?: string;
  readonly source: string;
  readonly note: string;
  readonly law: string;
  readonly short: string;
  readonly jurisdiction: Jurisdiction;
  /** Smartphones and slate tablets count only inside the scope by size and kind (Articles 1 and 2). */
  readonly scope?: boolean;
  readonly products?: readonly string[] | 'any';
  /** Categories that are not listed and may be covered all the same, and why. */
  readonly elsewhereFor?: readonly string[] | 'any';
  readonly elsewhere?: string;
  readonly dates?: readonly DateTest[];
  /** Said with every row of the law. */
  readonly remark?: string;
  readonly rows: readonly DutyRow[];
  readonly rules?: readonly {
    readonly id: string;
    readonly clause: string;
    readonly says: string;
    readonly mark: DutyMark;
    readonly note?: string;
  }[];
}
