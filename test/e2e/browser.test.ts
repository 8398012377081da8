import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, expect, test, vi } from 'vitest';
import { launchBrowser } from './browser.ts';
import { findBrowser } from './find-browser.ts';

afterEach(() => vi.unstubAllEnvs());

test('launchBrowser opens a browser that lays out a page', async () => {
  const browser = await launchBrowser();
  try {
    const page = await browser.newPage({ viewport: { width: 390, height: 800 } });
    await page.setContent('<main style="width:100vw"><h1>Bench</h1></main>');
    const width = await page.locator('main').evaluate((element) => element.getBoundingClientRect().width);
    expect([await page.getByRole('heading').textContent(), width <= 390]).toEqual(['Bench', true]);
  } finally {
    await browser.close();
  }
});

test('findBrowser obeys UNFASTEN_BROWSER and refuses a path that cannot be run', () => {
  const folder = mkdtempSync(join(tmpdir(), 'unfasten-browser-'));
  try {
    const path = join(folder, 'browser');
    writeFileSync(path, '#!/bin/sh\n');
    chmodSync(path, 0o644);
    vi.stubEnv('UNFASTEN_BROWSER', path);
    expect(() => findBrowser()).toThrow(/no executable/);
    chmodSync(path, 0o755);
    expect(findBrowser()).toBe(path);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
