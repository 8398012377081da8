import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { buildIfStale } from './build-if-stale.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
let built = false;

/** What a run of the command line left behind. */
export interface CommandResult {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** How a test may set the stage for a run. */
export interface CommandOptions {
  readonly environment?: Readonly<Record<string, string>>;
  readonly input?: string;
  readonly timeoutMilliseconds?: number;
}

/** Where is the executable? Builds it first where its sources have changed since. */
export function builtExecutable(): string {
  if (!built) buildIfStale();
  built = true;
  return `${root}bin/unfasten.mjs`;
}

/** What does `unfasten …` do when a person types it? Runs the bundled executable from the package's root. */
export function runCommandLine(argv: readonly string[], options: CommandOptions = {}): CommandResult {
  const result = spawnSync(process.execPath, [builtExecutable(), ...argv], {
    cwd: root,
    encoding: 'utf8',
    env: { ...process.env, ...options.environment },
    timeout: options.timeoutMilliseconds ?? 60_000,
    maxBuffer: 256 * 1024 * 1024,
    ...(options.input === undefined ? {} : { input: options.input }),
  });
  return { code: result.status, out: result.stdout, err: result.stderr };
}
