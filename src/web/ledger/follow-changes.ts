import type { LedgerChange } from './sync-state.ts';

/** What a follower tells. */
export interface FollowHandlers {
  readonly onOpen: () => void;
  readonly onChange: (change: LedgerChange) => void;
  /** The line is gone; nothing more comes from this follower. */
  readonly onEnd: () => void;
}

/** Follows an assessment from a revision on by server-sent events, until the line breaks or the returned function is called. */
export const followChanges = (assessment: string, since: number, handlers: FollowHandlers): (() => void) => {
  const source = new EventSource(`/api/assessments/${encodeURIComponent(assessment)}/events?since=${since}`);
  source.addEventListener('open', handlers.onOpen);
  source.addEventListener('change', ({ data }: MessageEvent<string>) =>
    handlers.onChange(JSON.parse(data) as LedgerChange),
  );
  // The browser's own reconnecting would go on with the revision of the first address, for ever and without our knowing.
  source.addEventListener('error', () => {
    source.close();
    handlers.onEnd();
  });
  return () => source.close();
};
