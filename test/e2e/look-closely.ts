import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { share } from '../share.ts';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/**
 * On which sheets is every screen looked at? The bench's on a wide one and the light sheet on a phone; all three widths in both
 * themes under `npm run test:deep`.
 */
export const SHEETS: readonly { readonly width: number; readonly sheet: 'light' | 'dark' }[] = (
  [
    { width: 1440, sheet: 'dark' },
    { width: 390, sheet: 'light' },
    { width: 820, sheet: 'light' },
    { width: 1440, sheet: 'light' },
    { width: 820, sheet: 'dark' },
    { width: 390, sheet: 'dark' },
  ] as const
).slice(0, share(2, 6));

const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** The part of axe that is used here. */
interface Axe {
  run(options: object): Promise<{ violations: { id: string; nodes: { target: unknown[] }[] }[] }>;
}

/** Which rules of WCAG 2.2 A and AA does a screen break, as axe finds them? Each with the places. */
export async function brokenRules(page: Page): Promise<readonly string[]> {
  await page.evaluate(axeSource);
  return page.evaluate(async (tags) => {
    const { axe } = window as unknown as { axe: Axe };
    const { violations } = await axe.run({ runOnly: tags });
    return violations.map(({ id: rule, nodes }) => `${rule}: ${nodes.map(({ target }) => String(target)).join(', ')}`);
  }, TAGS);
}

/** Which things to press are smaller than 24 by 24 px (WCAG 2.2, 2.5.8), and by how much is the page too wide [px]? */
export async function tooSmallOrWide(
  page: Page,
): Promise<{ readonly small: readonly string[]; readonly over: number }> {
  return page.evaluate(() => {
    const pressed = [...document.querySelectorAll<HTMLElement>('a, button, input, select, label:has(input)')];
    const small = pressed.filter((element) => {
      const { width, height } = element.getBoundingClientRect();
      const isSeen = width > 0 && !element.matches('[class*="skip"], label input');
      return isSeen && (width < 24 || height < 24);
    });
    const over = document.documentElement.scrollWidth - window.innerWidth;
    return { small: small.map(({ outerHTML }) => outerHTML.slice(0, 120)), over };
  });
}
