import { run } from '#cli/run';
import { collectingStreams } from '../collecting-streams.ts';

/** What does a command answer, with which exit code? Run in this process with a clock that stands still. */
export const runInProcess = async (
  argv: readonly string[],
): Promise<{ readonly code: number; readonly out: string; readonly err: string }> => {
  const collected = collectingStreams();
  const code = await run({ argv: [...argv], version: '0.0.0', streams: collected.streams, now: () => 0 });
  return { code, out: collected.out(), err: collected.err() };
};
