import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { readAssessment } from '#record/read/read-assessment';
import { runCommandLine } from '../command-line.ts';
import { share } from '../share.ts';
import { largeHostileFiles, smallHostileFiles } from './hostile-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'unfasten-hostile-'));
afterAll(() => rmSync(folder, { recursive: true }));

test.each(smallHostileFiles)('readAssessment refuses $name as $kind, with a place', ({ fileName, kind, bytes }) => {
  const { assessment, problems } = readAssessment({ fileName, bytes: bytes() });
  expect(assessment).toBe(undefined);
  expect(problems.map((problem) => problem.kind)).toContain(kind);
  expect(problems.filter(({ line, column }) => line < 1 || column < 1)).toEqual([]);
});

test('a reserved key leaves the prototype of every other object alone', () => {
  for (const { bytes, fileName } of smallHostileFiles) readAssessment({ fileName, bytes: bytes() });
  const fresh: Record<string, unknown> = {};
  expect([fresh.name, fresh.x, Object.keys(Object.prototype)]).toEqual([undefined, undefined, []]);
});

/** Prints the most memory the process ever held; loaded into the process that is watched. */
const MEMORY = 'process.on("exit",()=>process.stderr.write("peak "+process.resourceUsage().maxRSS+" kB\\n"))';

/** In the suite one of each kind of harm, in the deep run all. */
const runLarge = largeHostileFiles.filter(({ alike }) => share(0, 1) === 1 || alike === undefined);

test.each(runLarge)(
  'unfasten check answers $name with code 1 in under 1 GB and without a trace',
  { timeout: 300_000 },
  ({ fileName, kind, bytes }) => {
    const path = join(folder, fileName);
    writeFileSync(path, bytes());
    const { code, out, err } = runCommandLine(['check', path, '--json'], {
      environment: { NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(MEMORY)}` },
      timeoutMilliseconds: 240_000,
    });
    const peak = Number(/peak (\d+) kB/.exec(err)?.[1] ?? Number.NaN);
    const { problems } = JSON.parse(out) as { problems: { kind: string }[] };
    expect({
      code,
      trace: /\n\s+at /.test(out + err),
      kinds: [...new Set(problems.map((problem) => problem.kind))],
    }).toEqual({
      code: 1,
      trace: false,
      kinds: expect.arrayContaining([kind]),
    });
    expect(peak).toBeLessThan(1024 * 1024);
  },
);
