import { performance } from 'node:perf_hooks';
import { exitCodes } from './exit-codes.ts';
import { run } from './run.ts';

/**
 * Answers the process's own command line. The exit code is set, never forced, so that everything written gets out; a
 * reader that closes early (`unfasten … | head`) ends the process quietly.
 */
export async function main(version: string): Promise<void> {
  for (const stream of [process.stdout, process.stderr]) stream.on('error', endQuietlyOnClosedPipe);
  process.exitCode = await run({
    argv: process.argv.slice(2),
    version,
    streams: { out: process.stdout, err: process.stderr, environment: process.env },
    now: () => performance.now(),
  });
}

function endQuietlyOnClosedPipe(error: NodeJS.ErrnoException): void {
  process.exit(error.code === 'EPIPE' ? process.exitCode : exitCodes.ourBug);
}
