import { durationMilliseconds } from '#quantity/duration';
import type { Assessment, Session } from '../schema/assessment.ts';
import type { LoggedAction } from './bench-log.ts';

/** How long did one logged action take, without taking its tool up? */
export interface ActionDuration {
  /** [integer ms] */
  readonly milliseconds: number;
  /** Several actions shared the interval; the figure is an equal share and carries no spread. */
  readonly shared: boolean;
}

/**
 * How long did each action of a session take [ms]? As logged (`took`), else from its own start (`began`), else a share of its
 * interval, else from the mark before it less the holds between. Taking up a tool is in the logged time and is taken out where
 * the tool was changed, so that planners can put it back where it belongs. Undefined for a first mark without `took`.
 */
export const actionDurations = (
  assessment: Assessment,
  session: Session,
  actions: readonly LoggedAction[],
): ReadonlyMap<string, ActionDuration> => {
  const durations = new Map<string, ActionDuration>();
  const shares = countShares(actions);
  let previousAt = 0;
  let held = '';
  for (const { entry, record } of actions) {
    const shared = record.interval !== undefined && (shares.get(record.interval) ?? 0) > 1;
    const gross = grossMilliseconds(session, record, { previousAt, share: shares.get(record.interval ?? '') ?? 1 });
    const tools = [...(record.tools ?? [])].sort().join('\n');
    const pickup = tools !== '' && tools !== held ? pickupMilliseconds(assessment, record.tools ?? []) : 0;
    if (gross !== undefined) durations.set(entry, { milliseconds: Math.max(0, Math.round(gross - pickup)), shared });
    if (tools !== '') held = tools;
    previousAt = Math.max(previousAt, record.at);
  }
  return durations;
};

/** What does taking up these tools together cost [ms]? The sum of the recorded pick-up times; unknown ones count as none. */
export const pickupMilliseconds = (assessment: Assessment, tools: readonly string[]): number =>
  tools.reduce((sum, tool) => sum + (durationMilliseconds(assessment.tools?.[tool]?.pickup) ?? 0), 0);

const countShares = (actions: readonly LoggedAction[]): Map<string, number> => {
  const shares = new Map<string, number>();
  for (const { record } of actions)
    if (record.interval !== undefined) shares.set(record.interval, (shares.get(record.interval) ?? 0) + 1);
  return shares;
};

const grossMilliseconds = (
  session: Session,
  record: LoggedAction['record'],
  { previousAt, share }: { previousAt: number; share: number },
): number | undefined => {
  const took = durationMilliseconds(record.took);
  if (took !== undefined) return took;
  if (record.began !== undefined) return (record.at - record.began) * 1000;
  const interval = record.interval === undefined ? undefined : session.intervals?.[record.interval];
  if (interval) return ((interval.to - interval.from) * 1000) / share;
  if (previousAt === 0 && record.at === 0) return undefined;
  return (record.at - previousAt - heldSeconds(session, previousAt, record.at)) * 1000;
};

const heldSeconds = (session: Session, from: number, to: number): number =>
  Object.values(session.holds ?? {}).reduce(
    (sum, hold) => sum + Math.max(0, Math.min(hold.to, to) - Math.max(hold.from, from)),
    0,
  );
