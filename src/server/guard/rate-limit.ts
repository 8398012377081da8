import { getConnInfo } from '@hono/node-server/conninfo';
import type { Context, MiddlewareHandler } from 'hono';
import { answerProblem, problemType } from '../problem-json.ts';

/** How many requests may one address send? */
export interface RateRules {
  /** Requests that refill in a second [1/s]. */
  readonly perSecond: number;
  /** Requests that may come at once after a quiet time. */
  readonly burst: number;
}

/** How many addresses are remembered before the longest unseen ones are forgotten. */
const MAX_ADDRESSES = 1024;

/** Requests an address has left, and when that was reckoned [ms, monotonic]. */
interface Allowance {
  left: number;
  reckoned: number;
}

/**
 * Does an address ask too often? A token bucket for each address: `burst` at once, `perSecond` in the long run. Over it the
 * answer is 429 with `Retry-After` (RFC 6585 section 4).
 */
export const rateLimit = (rules: RateRules, nowMilliseconds: () => number): MiddlewareHandler => {
  const allowances = new Map<string, Allowance>();
  return async (context, next) => {
    const allowance = allowanceOf(allowances, addressOf(context), { ...rules, now: nowMilliseconds() });
    if (allowance.left < 1) {
      context.header('Retry-After', '1');
      return answerProblem(context, tooOften(rules));
    }
    allowance.left -= 1;
    return next();
  };
};

const allowanceOf = (
  allowances: Map<string, Allowance>,
  address: string,
  { perSecond, burst, now }: RateRules & { readonly now: number },
): Allowance => {
  const known = allowances.get(address) ?? { left: burst, reckoned: now };
  known.left = Math.min(burst, known.left + ((now - known.reckoned) / 1000) * perSecond);
  known.reckoned = now;
  allowances.delete(address);
  allowances.set(address, known);
  const oldest = allowances.keys().next().value;
  if (allowances.size > MAX_ADDRESSES && oldest !== undefined) allowances.delete(oldest);
  return known;
};

const addressOf = (context: Context): string => getConnInfo(context).remote.address ?? 'unknown';

const tooOften = ({ perSecond }: RateRules) => ({
  type: problemType('too-often'),
  title: 'Too many requests',
  status: 429 as const,
  detail: `This address sent more than ${perSecond} requests a second for a while.`,
  remedy: 'Wait a second and go on; nothing sent before is lost.',
});
