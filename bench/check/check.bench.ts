// How long does `unfasten check` take on a log of 100,000 entries, and how much memory? The whole process, as a person runs
// it; the files are made in a temporary folder. Usage: npm run bench -- check
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { dump } from 'js-yaml';
import { longLog } from './long-log.ts';

const ENTRIES = 100_000;
const RUNS = 3;
const root = fileURLToPath(new URL('../..', import.meta.url));

/** Prints the most memory the process ever held; loaded into the process that is watched. */
const MEMORY = 'process.on("exit",()=>process.stderr.write("peak "+process.resourceUsage().maxRSS+" kB\\n"))';

interface Run {
  readonly seconds: number;
  readonly megabytes: number;
  readonly code: number | null;
}

const check = (path: string): Run => {
  const begun = performance.now();
  const { status, stderr } = spawnSync(process.execPath, ['bin/unfasten.mjs', 'check', path], {
    cwd: root,
    encoding: 'utf8',
    env: { ...process.env, NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(MEMORY)}` },
  });
  const seconds = (performance.now() - begun) / 1000;
  const kilobytes = Number(/peak (\d+) kB/.exec(stderr)?.[1] ?? Number.NaN);
  return { seconds, megabytes: kilobytes / 1024, code: status };
};

const rowOf = (name: string, path: string, target: string): string => {
  const runs = Array.from({ length: RUNS }, () => check(path));
  if (runs.some(({ code }) => code !== 0)) throw new Error(`check of ${name} did not end with code 0`);
  const seconds = Math.min(...runs.map((run) => run.seconds));
  const megabytes = Math.max(...runs.map((run) => run.megabytes));
  const size = statSync(path).size / 1_000_000;
  return `| ${name} | ${size.toFixed(1)} | ${seconds.toFixed(2)} | ${megabytes.toFixed(0)} | ${target} |`;
};

const folder = mkdtempSync(join(tmpdir(), 'unfasten-check-'));
try {
  execFileSync(process.execPath, ['tools/build.mjs'], { cwd: root, stdio: 'ignore' });
  const record = longLog(ENTRIES);
  const files = [
    ['JSON, indented', 'long.json', JSON.stringify(record, undefined, 2), '3 s, 500 MB'],
    ['JSON, one line', 'line.json', JSON.stringify(record), '3 s, 500 MB'],
    ['YAML, block', 'long.yaml', dump(record), '10 s, 1 GB'],
    ['YAML, one line an entry', 'flow.yaml', dump(record, { flowLevel: 4, lineWidth: -1 }), '10 s, 1 GB'],
  ] as const;
  console.log(
    `\`unfasten check\` on ${ENTRIES} log entries: whole process, best time and highest peak memory of ${RUNS} runs.\n`,
  );
  console.log('| file | size [MB] | time [s] | peak memory [MB] | target |\n| --- | --- | --- | --- | --- |');
  for (const [name, file, text, target] of files) {
    const path = join(folder, file);
    writeFileSync(path, text);
    console.log(rowOf(name, path, target));
  }
} finally {
  rmSync(folder, { recursive: true });
}
