import { useEffect, useState } from 'react';

/** At the latest so long after the screen came up [ms]. */
const LATEST_MILLISECONDS = 2_000;

/** Has the page come to rest since this screen came up? Until then what the screen can do without must not load. */
export const useWhenIdle = (): boolean => {
  const [isIdle, setIdle] = useState(false);
  useEffect(() => {
    if (typeof requestIdleCallback !== 'function') {
      const timer = setTimeout(() => setIdle(true), LATEST_MILLISECONDS);
      return () => clearTimeout(timer);
    }
    const waiting = requestIdleCallback(() => setIdle(true), { timeout: LATEST_MILLISECONDS });
    return () => cancelIdleCallback(waiting);
  }, []);
  return isIdle;
};
