import type { Streams } from '#cli/output';

/** Streams that remember what was written, and what they remember. */
export interface CollectedStreams {
  readonly streams: Streams;
  out(): string;
  err(): string;
}

/** How a collecting pair of streams pretends to be. */
export interface CollectingOptions {
  readonly isTTY?: boolean;
  readonly columns?: number;
  readonly environment?: Readonly<Record<string, string>>;
}

/** What did a command write? Streams for tests that run a command in their own process. */
export function collectingStreams(options: CollectingOptions = {}): CollectedStreams {
  const { isTTY = false, columns = 100, environment = {} } = options;
  const written = { out: [] as string[], err: [] as string[] };
  const stream = (to: string[]) => ({ isTTY, columns, write: (text: string) => to.push(text) });
  return {
    streams: { out: stream(written.out), err: stream(written.err), environment },
    out: () => written.out.join(''),
    err: () => written.err.join(''),
  };
}
