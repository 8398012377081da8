import type { LedgerChange } from './sync-state.ts';

/** Which edition of a laboratory's readings holds? As the follower's line tells it. */
export interface ToldEdition {
  readonly id: string;
  readonly edition: number;
}

let hearEdition: (told: ToldEdition) => void = () => undefined;

/** Calls `listener` whenever a follower's line tells which edition of a laboratory's readings holds. One listener a page. */
export const whenEditionTold = (listener: (told: ToldEdition) => void): void => {
  hearEdition = listener;
};

/** What a follower tells. */
export interface FollowHandlers {
  readonly onOpen: () => void;
  readonly onChange: (change: LedgerChange) => void;
  /** The line is gone; nothing more comes from this follower. */
  readonly onEnd: () => void;
}

/**
 * Follows an assessment from a revision on by server-sent events, until the line breaks or the returned function is called. The
 * line tells of the laboratory's readings too, when it opens and when another edition is kept (`whenEditionTold`).
 */
export const followChanges = (assessment: string, since: number, handlers: FollowHandlers): (() => void) => {
  const source = new EventSource(`/api/assessments/${encodeURIComponent(assessment)}/events?since=${since}`);
  source.addEventListener('open', handlers.onOpen);
  source.addEventListener('change', ({ data }: MessageEvent<string>) =>
    handlers.onChange(JSON.parse(data) as LedgerChange),
  );
  source.addEventListener('laboratory', ({ data }: MessageEvent<string>) =>
    hearEdition(JSON.parse(data) as ToldEdition),
  );
  // The browser's own reconnecting would go on with the revision of the first address, for ever and without our knowing.
  source.addEventListener('error', () => {
    source.close();
    handlers.onEnd();
  });
  return () => source.close();
};
