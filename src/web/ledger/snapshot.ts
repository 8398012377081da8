import type { Assessment } from '#record/schema/assessment';
import type { Conflict } from './sync-state.ts';

/** How is the line to the server? */
export type LinkState = 'live' | 'connecting' | 'offline';

/** What the screens see of an assessment; the very same object until something changes. */
export interface Snapshot {
  readonly document: Assessment;
  readonly revision: number;
  /** Changes the server does not have yet. */
  readonly pending: number;
  readonly link: LinkState;
  readonly conflicts: readonly Conflict[];
  /** True where this browser keeps nothing: what is pending would be lost with the page. */
  readonly unkept: boolean;
  /** What the server last said when it could not do something. */
  readonly trouble?: string;
}
