import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { builtExecutable } from '../command-line.ts';

/** How `unfasten serve` went: it listens, or it ended with a code and what it said on standard error. */
export interface Served {
  readonly url?: string;
  readonly code?: number;
  readonly said: () => string;
  /** Ends it by SIGTERM; gives its exit code. */
  stop(): Promise<number | null>;
}

/** Runs `unfasten serve` over a data folder until it listens or ends; as another user where one is named. */
export const served = async (data: string, { user }: { readonly user?: number } = {}): Promise<Served> => {
  const argv = [builtExecutable(), 'serve', '--data', data, '--port', '0', '--json'];
  const child = spawn(process.execPath, argv, {
    stdio: ['ignore', 'pipe', 'pipe'],
    ...(user === undefined ? {} : { uid: user, gid: user }),
  });
  let [out, err] = ['', ''];
  child.stderr.on('data', (piece) => {
    err += String(piece);
  });
  const closed = once(child, 'close').then(([code]) => code as number | null);
  const url = await Promise.race([
    closed.then(() => undefined),
    new Promise<string>((resolve) => {
      child.stdout.on('data', (piece) => {
        out += String(piece);
        const [, found] = /"url":\s*"([^"]+)"/.exec(out) ?? [];
        if (found !== undefined) resolve(found);
      });
    }),
  ]);
  const said = () => err;
  if (url === undefined) return { code: (await closed) ?? -1, said, stop: () => closed };
  return { url, said, stop: () => endOf(child, closed) };
};

const endOf = (child: ChildProcess, closed: Promise<number | null>): Promise<number | null> => {
  child.kill('SIGTERM');
  return closed;
};
