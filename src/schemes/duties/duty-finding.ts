import type { MissingFact } from '#quantity/explained';
import type { DutyMark, Jurisdiction } from './duty-table.ts';

/** What came of a duty: an observation from the record, no advice and no finding of an authority. */
export type DutyState = 'met' | 'not-met' | 'not-shown' | 'does-not-apply';

/** One duty looked at: the row, its state, what was observed, on what it rests and what is missing. */
export interface DutyFinding {
  readonly id: string;
  readonly title: string;
  readonly jurisdiction: Jurisdiction;
  readonly law: string;
  readonly clause: string;
  readonly state: DutyState;
  readonly observed: string;
  readonly condition?: string;
  readonly asks: string;
  readonly facts: readonly string[];
  readonly evidence: readonly string[];
  readonly missing: readonly MissingFact[];
  readonly mark: DutyMark;
  readonly source: string;
  /** Readings of ours and remarks on the law. */
  readonly notes: readonly string[];
}
