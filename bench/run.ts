// Runs every benchmark in one go and prints one Markdown page; docs/benchmarks.md holds the last one.
// Usage: npm run bench [-- PART...]   parts: neutral steps verdict start check ledger bench-session page rescore outlook swaps; all without.
import { spawnSync } from 'node:child_process';
import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';

const PARTS: Readonly<Record<string, string>> = {
  neutral: './routes/neutral.bench.ts',
  steps: './steps/steps.bench.ts',
  verdict: './verdict/verdict.bench.ts',
  start: './verdict/start.bench.ts',
  check: './check/check.bench.ts',
  ledger: './ledger/append.bench.ts',
  'bench-session': './bench-session/bench-session.bench.ts',
  page: './page/page.bench.ts',
  rescore: './rescore/rescore.bench.ts',
  outlook: './outlook/outlook.bench.ts',
  swaps: './swaps/swaps.bench.ts',
};

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => PARTS[name] === undefined);
if (unknown.length > 0) {
  console.error(`bench: no part ${unknown.join(', ')}; there are ${Object.keys(PARTS).join(', ')}`);
  process.exit(2);
}
console.log(
  `# Benchmarks\n\nNode ${process.version}, ${cpus().length} processors. Times are one run's, ratios within it; see the command in each part.`,
);
let status = 0;
for (const [name, file] of Object.entries(PARTS)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  console.log(`\n## ${name}\n\n\`npm run bench -- ${name}\`\n`);
  const run = spawnSync(process.execPath, ['--import', 'tsx', fileURLToPath(new URL(file, import.meta.url))], {
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  if (run.status !== 0) status = 1;
}
process.exit(status);
