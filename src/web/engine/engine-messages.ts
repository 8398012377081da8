import type { Problem } from '#record/problem';
import type { Assessment } from '#record/schema/assessment';
import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import type { Outlook } from '#verdict/outlook/outlook';
import type { QuestionList } from '#verdict/outlook/ranked-questions';
import type { GivenOdds } from '#verdict/questions/read-odds';
import type { FiguresVerdict, Verdict } from '#verdict/verdict';

/** What the page asks of the engine. */
export interface EngineRequest {
  /** Counts up; the newest wins. */
  readonly generation: number;
  /** The revision the document is of; changes of this page that are not sent yet are in the document. */
  readonly revision: number;
  readonly document: Assessment;
  /** Whose readings hold where the document chooses none. */
  readonly laboratory?: Laboratory | undefined;
  /** `outlook`: after the verdict, how far it can still move and what to settle next. Screens that show none do not ask. */
  readonly wants?: 'outlook';
}

/**
 * What the engine says, with the revision it belongs to: first the figures, then the whole verdict, then the outlook where it
 * is wanted, at first without its ends; or in words why there is none.
 */
export type EngineAnswer = { readonly generation: number; readonly revision: number } & (
  | { readonly stage: 'figures'; readonly figures: FiguresVerdict }
  | { readonly stage: 'whole'; readonly verdict: Verdict }
  | { readonly stage: 'outlook'; readonly outlook: Outlook; readonly last: boolean }
  | { readonly stage: 'problem'; readonly problem: string }
);

/** What the page asks of the engine about tools: how every part is reached with these and no others. */
export interface ToolsRequest extends EngineRequest {
  readonly tools: readonly string[];
}

/** One part with the tools asked about: its fewest steps, or in words why not and which further tools would be enough. */
export type PartWithTools = { readonly part: string } & (
  | { readonly steps: number; readonly proved: boolean; readonly actions: readonly string[]; readonly why?: never }
  | { readonly why: string; readonly addTools: readonly (readonly string[])[]; readonly steps?: never }
);

/** What the engine says about tools, with the revision and the tools it belongs to. */
export type ToolsAnswer = {
  readonly generation: number;
  readonly revision: number;
  readonly tools: readonly string[];
} & (
  | { readonly parts: readonly PartWithTools[]; readonly problem?: never }
  | { readonly problem: string; readonly parts?: never }
);

/** A document of odds as the page has it: the name that problems are placed in, and the text. */
export interface OddsText {
  readonly fileName: string;
  readonly text: string;
}

/** What the page asks of the engine about odds: how the open questions of a document rank by them. */
export interface OddsRequest {
  readonly generation: number;
  /** Which document it is, as the page numbers them. */
  readonly of: number;
  readonly document: Assessment;
  readonly laboratory?: Laboratory | undefined;
  readonly odds: OddsText;
}

/**
 * What the engine says about odds, with the document and the odds it belongs to: the odds as they were read and the questions
 * ranked by them; every problem in their text; in words, why there is no ranking by odds that were read.
 */
export interface OddsAnswer {
  readonly generation: number;
  readonly of: number;
  readonly odds: OddsText;
  readonly problems: readonly Problem[];
  readonly given?: Pick<GivenOdds, 'by' | 'reason' | 'weights'>;
  readonly list?: QuestionList;
  readonly trouble?: string;
}
