import type { Page } from 'playwright-core';

/** Notes when each key goes down in a page, by the clock that all pages of this machine share. */
export const notePresses = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const times: number[] = [];
    Object.assign(window, { pressed: times });
    window.addEventListener('keydown', ({ timeStamp }) => times.push(performance.timeOrigin + timeStamp), true);
  });

/** Notes when the log of a bench has another line and the frame with it has been painted. */
export const notePaints = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const times: number[] = [];
    Object.assign(window, { painted: times });
    const list = document.querySelector('ol[aria-label="Log of this session"]');
    if (!list) throw new Error('there is no log');
    new MutationObserver((records) => {
      const isGrown = records.some(({ addedNodes }) => [...addedNodes].some(({ nodeName }) => nodeName === 'LI'));
      // A task that a frame's callback asks for comes after that frame's layout and paint.
      if (isGrown)
        requestAnimationFrame(() => setTimeout(() => times.push(performance.timeOrigin + performance.now())));
    }).observe(list, { childList: true });
  });

/** What a page has noted so far [ms since 1970]. */
export const noted = (page: Page, name: 'painted' | 'pressed'): Promise<readonly number[]> =>
  page.evaluate((key) => (window as unknown as Record<string, number[]>)[key] ?? [], name);

/** Which value is at a share of all, 0 to 1, in order of size? */
export const quantile = (values: readonly number[], share: number): number =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;
