import { durationMilliseconds } from '#quantity/duration';
import { toolSet } from '../device/tool-set.ts';
import type { Assessment, Session } from '../schema/assessment.ts';
import type { LoggedAction } from './bench-log.ts';
import { holdClock } from './hold-clock.ts';
import { type RetakeStretch, retakeOf, retakesOf } from './retakes.ts';

/** How long did one logged action take, without taking its tool up? */
export interface ActionDuration {
  /** [integer ms] */
  readonly milliseconds: number;
  /** Several actions shared the interval; the figure is an equal share and carries no spread. */
  readonly shared: boolean;
}

/**
 * How long did each action of a session take [ms]? As logged (`took`), else from its own start (`began`), else a share of its
 * interval less the holds in it, else from the mark before it less the holds between. A retake is no work of the session round
 * it: what was done after it counts from the mark before it, less the retake; what was done in it, from its beginning. Taking up a tool is in the logged time
 * and is taken out where the tool was not in hand, so that planners can put it back where it belongs; a `began` is the start of
 * a heat, soak or cure with the tool already up. Undefined for a mark at zero that says nothing else.
 */
export const actionDurations = (
  assessment: Assessment,
  session: Session,
  actions: readonly LoggedAction[],
): ReadonlyMap<string, ActionDuration> => {
  const durations = new Map<string, ActionDuration>();
  const gross = grossTimes(session, actions);
  const marks = new Map<string | undefined, number>();
  let held: readonly string[] = [];
  for (const { entry, record } of actions) {
    const retake = retakeOf(session, record);
    const previousAt = marks.get(retake?.key) ?? retake?.from ?? 0;
    const taken = gross(record, previousAt, retake);
    const tools = toolSet(record.tools);
    const taking = tools.filter((tool) => !held.includes(tool));
    const pickup = taken?.withPickup ? pickupMilliseconds(assessment, taking) : 0;
    if (taken)
      durations.set(entry, {
        milliseconds: Math.max(0, Math.round(taken.milliseconds - pickup)),
        shared: taken.shared,
      });
    if (tools.length > 0) held = tools;
    marks.set(retake?.key, Math.max(previousAt, record.at));
  }
  return durations;
};

/** What does taking up these tools cost [ms]? The sum of the recorded pick-up times; unknown ones count as none. */
export const pickupMilliseconds = (assessment: Assessment, tools: readonly string[]): number =>
  tools.reduce((sum, tool) => sum + (durationMilliseconds(assessment.tools?.[tool]?.pickup) ?? 0), 0);

interface GrossTime {
  readonly milliseconds: number;
  readonly shared: boolean;
  readonly withPickup: boolean;
}

const grossTimes = (
  session: Session,
  actions: readonly LoggedAction[],
): ((
  record: LoggedAction['record'],
  previousAt: number,
  retake: RetakeStretch | undefined,
) => GrossTime | undefined) => {
  const paused = holdClock(session);
  const shares = countShares(actions);
  return (record, previousAt, retake) => {
    const held = (from: number, to: number): number =>
      paused(from, to) + (retake === undefined ? workInRetakes(session, paused, { from, to }) : 0);
    const whole = (milliseconds: number, withPickup = true): GrossTime => ({ milliseconds, shared: false, withPickup });
    const took = durationMilliseconds(record.took);
    if (took !== undefined) return whole(took);
    if (record.began !== undefined) return whole((record.at - record.began) * 1000, false);
    const interval = record.interval === undefined ? undefined : session.intervals?.[record.interval];
    if (interval) {
      const share = shares.get(record.interval ?? '') ?? 1;
      const worked = interval.to - interval.from - held(interval.from, interval.to);
      return { milliseconds: (worked * 1000) / share, shared: share > 1, withPickup: true };
    }
    if (previousAt === 0 && record.at === 0) return undefined;
    return whole((record.at - previousAt - held(previousAt, record.at)) * 1000);
  };
};

/** How long was something done again in a stretch [s]? Less the holds, which are counted already. */
const workInRetakes = (
  session: Session,
  paused: (from: number, to: number) => number,
  stretch: { readonly from: number; readonly to: number },
): number =>
  retakesOf(session).reduce((sum, one) => {
    const [from, to] = [Math.max(stretch.from, one.from), Math.min(stretch.to, one.to)];
    return to > from ? sum + to - from - paused(from, to) : sum;
  }, 0);

const countShares = (actions: readonly LoggedAction[]): ReadonlyMap<string, number> => {
  const shares = new Map<string, number>();
  for (const { record } of actions)
    if (record.interval !== undefined) shares.set(record.interval, (shares.get(record.interval) ?? 0) + 1);
  return shares;
};
