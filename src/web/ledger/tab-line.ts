import type { SyncEvent } from './sync-state.ts';

/** How the windows of one browser share an assessment: what one does the others hear, and only one sends. */
export interface TabLine {
  /** Tells the other windows. */
  say(event: SyncEvent): void;
  /** Runs a task while this window is the one that sends; it may have to wait for another to close. */
  whenSender(task: (signal: AbortSignal) => Promise<void>): void;
  close(): void;
}

/**
 * Opens the line of an assessment. Where the browser has no locks (a page from another machine without TLS) every window
 * sends: the ledger stores a change once however often it comes.
 */
export const openTabLine = (assessment: string, hear: (event: SyncEvent) => void): TabLine => {
  const name = `unfasten.${assessment}`;
  const channel = new BroadcastChannel(name);
  const closing = new AbortController();
  channel.addEventListener('message', ({ data }: MessageEvent<SyncEvent>) => hear(data));
  return {
    say: (event) => channel.postMessage(event),
    whenSender: (task) => {
      if (!('locks' in navigator)) {
        void task(closing.signal);
        return;
      }
      navigator.locks
        .request(name, { signal: closing.signal }, () => task(closing.signal))
        .catch((error: unknown) => {
          if (!closing.signal.aborted) throw error;
        });
    },
    close: () => {
      closing.abort();
      channel.close();
    },
  };
};
