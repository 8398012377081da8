import type { EvidenceStore } from '#store/evidence-store';
import type { Ledger } from '#store/ledger';
import type { Followers } from './followers.ts';

/** What the routes work with; made once when the server starts. */
export interface ServerContext {
  readonly ledger: Ledger;
  readonly evidence: EvidenceStore;
  readonly followers: Followers;
  readonly limits: ServerLimits;
  /** Fulfilled when the server begins to shut down: long answers end then. */
  readonly closing: AbortSignal;
}

/** How much of everything is taken? Each limit is named in the refusal. */
export interface ServerLimits {
  /** JSON body [bytes]. */
  readonly bodyBytes: number;
  /** For a JSON body to come in [ms]. */
  readonly bodyMilliseconds: number;
  /** One evidence file [bytes]. */
  readonly evidenceBytes: number;
  /** Longest silence within an evidence upload [ms]. */
  readonly evidenceStallMilliseconds: number;
  /** Followers at once. */
  readonly followers: number;
  /** Assessments in the ledger. */
  readonly assessments: number;
  /** Changes in one answer. */
  readonly changesPerAnswer: number;
  readonly requestsPerSecond: number;
  readonly requestBurst: number;
}

/** Room for the largest record the reader takes, a day of video in pieces, and a laboratory of followers. */
export const DEFAULT_LIMITS: ServerLimits = {
  bodyBytes: 16 * 1024 * 1024,
  bodyMilliseconds: 20_000,
  evidenceBytes: 8 * 1024 * 1024 * 1024,
  evidenceStallMilliseconds: 30_000,
  followers: 64,
  assessments: 10_000,
  changesPerAnswer: 1000,
  requestsPerSecond: 200,
  requestBurst: 1000,
};
