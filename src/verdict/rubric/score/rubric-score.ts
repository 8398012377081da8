import type { Explained, MissingFact } from '#quantity/explained';
import type { ExactText } from '../exact-text.ts';
import type { Answer, MetricValue } from '../metric-value.ts';

/** What a criterion comes to at one end of the score: nothing where it does not apply there. */
export interface CriterionEnd {
  /** The possibility of the metric that this end takes, in words. */
  readonly value: string;
  readonly points: ExactText;
  /** Weight × points over the sum of the weights that apply: all contributions add up to the mean before caps. */
  readonly contribution: ExactText;
}

/** One criterion of a scored rubric. */
export interface CriterionScore {
  readonly id: string;
  readonly title: string;
  readonly metric: string;
  readonly weight: ExactText;
  readonly applies: Answer;
  readonly value: MetricValue;
  readonly valueText: string;
  /** Fewest and most points that its own metric allows; absent where the criterion does not apply. */
  readonly points?: { readonly low: ExactText; readonly high: ExactText };
  readonly atLow?: CriterionEnd;
  readonly atHigh?: CriterionEnd;
  readonly missing: readonly MissingFact[];
}

/** One cap of a scored rubric: does its condition hold? */
export interface CapScore {
  readonly id: string;
  readonly title: string;
  readonly metric: string;
  readonly atMost: ExactText;
  readonly applies: Answer;
  readonly holds: Answer;
  readonly valueText: string;
  readonly missing: readonly MissingFact[];
}

/** What a house rubric says of one record: 0 to 100 with its width, every criterion and cap, what is missing, and why. */
export interface RubricScore {
  readonly rubric: {
    readonly id: string;
    readonly title: string;
    readonly edition: number;
    readonly author: string;
    readonly date: string;
    readonly invented: boolean;
    readonly note?: string;
  };
  /** `settled`: one score whatever the rest; `open`: facts missing; `none`: no criterion applies. */
  readonly state: 'settled' | 'open' | 'none';
  /** Exact ends; absent where there is no score. */
  readonly low?: ExactText;
  readonly high?: ExactText;
  /** The ends with one decimal: a settled score to the nearest, a width outward. */
  readonly shown?: { readonly low: string; readonly high: string };
  /** May it turn out that no criterion applies at all? */
  readonly mayBeNone: boolean;
  readonly criteria: readonly CriterionScore[];
  readonly caps: readonly CapScore[];
  readonly missing: readonly MissingFact[];
  readonly tree: Explained;
}
