import { randomUUID } from 'node:crypto';
import { existsSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { InvalidArgumentError } from 'commander';
import { UnfastenError } from '#quantity/unfasten-error';
import { readPageFiles } from '#server/page-files';
import { startServer } from '#server/start-server';
import { importFolder } from '#store/folder/import-folder';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { dataOption, type LedgerStores, openStores } from '../ledger-stores.ts';
import { openBrowser } from '../open-browser.ts';
import { packageRoot } from '../package-root.ts';

interface ServeOptions {
  readonly data: string;
  readonly port: number;
  readonly host: string;
  readonly allowHost: readonly string[];
  readonly demo: readonly string[];
  readonly open?: boolean;
  readonly json?: boolean;
}

/** Adds `unfasten serve`: the bench application over the ledger of a data folder. */
export const configureServe: ConfigureCommand = (command, context) => {
  command
    .requiredOption(...dataOption)
    .option('--port <number>', 'port to listen on; 0 takes any free one', portNumber, 4747)
    .option(
      '--host <address>',
      'address to listen on; other machines reach it only if this is not 127.0.0.1',
      '127.0.0.1',
    )
    .option('--allow-host <name...>', 'further names the server may be called by, for a second screen', [])
    .option('--demo <folder...>', 'assessment folders to begin with where the ledger is empty', [])
    .option('--open', 'show it in the browser')
    .option('--json', 'print {"url", "data"} when it listens')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten serve --data bench-data', 'the application on http://127.0.0.1:4747/, until Ctrl+C'],
        [
          'unfasten serve --data bench-data --port 0 --demo examples/tarn-5',
          'any free port, the demo in an empty ledger',
        ],
        [
          'unfasten serve --data bench-data --host 0.0.0.0 --allow-host 192.168.7.20',
          'a second screen may follow on the local network',
        ],
      ]),
    )
    .action((options: ServeOptions) => serve(options, context));
};

const portNumber = (text: string): number => {
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65_535)
    throw new InvalidArgumentError('A port is a whole number from 0 to 65535.');
  return port;
};

const serve = async (options: ServeOptions, context: CommandContext): Promise<void> => {
  const page = await builtPage();
  const stores = await openStores({ data: options.data, readOnly: false }, context);
  try {
    await loadDemo(stores, options.demo, context);
    await serveUntilAsked({ stores, page, options }, context);
  } finally {
    await stores.ledger.close();
  }
};

interface Serving {
  readonly stores: LedgerStores;
  readonly page: Awaited<ReturnType<typeof readPageFiles>>;
  readonly options: ServeOptions;
}

const serveUntilAsked = async ({ stores, page, options }: Serving, context: CommandContext): Promise<void> => {
  const { output, version } = context;
  const asked = stopAsked();
  const server = await startServer({
    ...stores,
    page,
    port: options.port,
    host: options.host,
    allowedHosts: options.allowHost,
    version,
    reportBug: (error) => output.note(error instanceof Error ? (error.stack ?? error.message) : String(error)),
  });
  if (options.json) output.json({ url: server.url, data: resolve(options.data) });
  else output.line(`The bench is open at ${server.url} (data in ${options.data}). Ctrl+C ends it.`);
  if (options.open) openBrowser(server.url);
  const by = await asked;
  await server.stop();
  output.note(`Ended by ${by}. Everything acknowledged is on the disk.`);
};

const builtPage = async (): Promise<Awaited<ReturnType<typeof readPageFiles>>> => {
  const folder = join(packageRoot(), 'dist', 'web');
  if (!existsSync(join(folder, 'index.html')))
    throw new UnfastenError('usage', 'The page has not been built', {
      where: 'dist/web',
      value: undefined,
      remedy: 'Run `npm run build` in the package, then serve again.',
    });
  return await readPageFiles(folder);
};

/** Takes the demo in where nothing is there yet, so that no later work is ever mixed with it. */
const loadDemo = async (
  stores: LedgerStores,
  folders: readonly string[],
  { output }: CommandContext,
): Promise<void> => {
  if (folders.length === 0 || (await stores.ledger.shelf()).length > 0) return;
  for (const folder of folders) {
    const assessment = basename(resolve(folder));
    const head = { assessment, author: 'demo', change: randomUUID(), at: new Date().toISOString() };
    await importFolder(stores, { folder, ...head });
    output.note(`Took in the demo ${assessment}.`);
  }
};

/** Resolves when the process is asked to end, with who asked. */
const stopAsked = (): Promise<string> =>
  new Promise((resolveAsked) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolveAsked(signal));
  });
