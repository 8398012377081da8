import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, expect, test, vi } from 'vitest';

const root = mkdtempSync(join(tmpdir(), 'unfasten-method-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));
afterEach(() => {
  vi.doUnmock('#verdict/rescore/rescoring');
  vi.resetModules();
});

const archive = join(root, 'archive');
mkdirSync(archive);
for (const name of ['tarn-4', 'gust-2'])
  cpSync(
    fileURLToPath(new URL(`../../examples/${name}/assessment.yaml`, import.meta.url)),
    join(archive, `${name}.yaml`),
  );

/** The program as it stands, or with another version of the method in it. */
const programOf = async (method?: string) => {
  vi.resetModules();
  if (method === undefined) vi.doUnmock('#verdict/rescore/rescoring');
  else
    vi.doMock('#verdict/rescore/rescoring', async (original) => ({
      ...(await original<typeof import('#verdict/rescore/rescoring')>()),
      RESCORING_METHOD: method,
    }));
  return (await import('./run-in-process.ts')).runInProcess;
};

const rescore = async (folder: string, method?: string) => {
  const runInProcess = await programOf(method);
  return runInProcess(['rescore', archive, '--out', folder, '--workers', '1', '--json']);
};

/** Makes every kept score and value of a folder one that no method would find. */
const spoil = (folder: string): void => {
  const results = join(folder, 'results.jsonl');
  writeFileSync(results, readFileSync(results, 'utf8').replaceAll(/"(low|high)":"[^"]+"/g, '"$1":"1"'));
  for (const entry of readdirSync(join(folder, 'facts'), { recursive: true, withFileTypes: true }))
    if (entry.isFile()) {
      const path = join(entry.parentPath, entry.name);
      writeFileSync(path, readFileSync(path, 'utf8').replaceAll(/"(low|high)":"[^"]+"/g, '"$1":"99"'));
    }
};

test('rescore never uses what another version of the method left, and says how much it passed over', async () => {
  const [kept, fresh] = [join(root, 'kept'), join(root, 'fresh')];
  const older = await rescore(kept, 'eu-2023-1669/0 rescoring/1');
  expect(JSON.parse(older.out).method).toBe('eu-2023-1669/0 rescoring/1');
  spoil(kept);
  expect((await rescore(kept, 'eu-2023-1669/0 rescoring/1')).out).not.toBe(older.out);
  const now = await rescore(kept);
  expect(now.out).toBe((await rescore(fresh)).out);
  expect(now.err).toContain('2 kept results are of another version of the method; they were not used.');
  expect(now.err).not.toContain('were there from an earlier run');
  const again = await rescore(kept);
  expect(again.out).toBe(now.out);
  expect(again.err).toMatch(/2 results were there from an earlier run\.\n.*2 kept results are of another version/s);
});
