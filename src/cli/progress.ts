import type { Streams } from './output.ts';

/** A line on the terminal that says what a long computation is at. */
export interface Progress {
  /** Says what is being done now; shown only once a second has gone by since the start. */
  update(text: string): void;
  /** Takes the line away. Safe to call twice. */
  stop(): void;
}

const quietMilliseconds = 1_000;
const betweenMilliseconds = 100;
const clearLine = '\r\u001b[2K';

/**
 * What is a long computation at? Nothing in its first second, nothing when standard error is not a terminal. `now` is a
 * monotonic clock [ms]; updates closer together than 100 ms are dropped.
 */
export function startProgress(streams: Streams, label: string, now: () => number): Progress {
  const { err } = streams;
  if (err.isTTY !== true) return { update: () => undefined, stop: () => undefined };
  const startedAt = now();
  let shownAt = Number.NEGATIVE_INFINITY;
  let visible = false;
  return {
    update: (text) => {
      const at = now();
      if (at - startedAt < quietMilliseconds || at - shownAt < betweenMilliseconds) return;
      const seconds = Math.floor((at - startedAt) / 1_000);
      const room = (err.columns ?? 80) - 1;
      err.write(clearLine + `${label}: ${text} (${seconds} s)`.slice(0, room));
      shownAt = at;
      visible = true;
    },
    stop: () => {
      if (visible) err.write(clearLine);
      visible = false;
    },
  };
}
