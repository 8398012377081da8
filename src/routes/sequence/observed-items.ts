import { comesAsItems } from '#record/device/action-kinds';
import { toolSet } from '#record/device/tool-set';
import { addressOf, type LoggedAction } from '#record/log/bench-log';
import { wayOfEntry } from '#record/log/way-of-entry';
import type { ReuseClass, RouteAtom } from '../problem/route-problem.ts';
import type { SequenceItem } from './bench-sequence.ts';
import { NewlyOff } from './newly-off.ts';
import { type BenchSource, type ObservedRun, subjectsOf } from './observed-run.ts';
import { releaseOf } from './release-atom.ts';

/** A failed attempt as an item, and before which kept item it was made. */
export interface FailedItem {
  readonly item: SequenceItem;
  readonly before: number;
}

/** What do the kept actions of a run look like as items, in their order? With the failed attempts on what they took off. */
export const observedItems = (
  source: BenchSource,
  run: ObservedRun,
  kept: ReadonlySet<number>,
): {
  readonly items: readonly SequenceItem[];
  readonly sessions: readonly string[];
  readonly failed: readonly FailedItem[];
  readonly unnamed: readonly string[];
} => {
  const items: SequenceItem[] = [];
  const failed: FailedItem[] = [];
  const unnamed: string[] = [];
  const sessions = new Set<string>();
  const attempts = attemptsOn(run, kept);
  const off = new NewlyOff(source.device);
  for (const [index, action] of run.actions.slice(0, run.last + 1).entries()) {
    if (action.record.do === undefined) unnamed.push(addressOf(action));
    else if (attempts.has(action) || (kept.has(index) && action.record.outcome === 'failed'))
      failed.push({ item: itemOf(source, run, { index, newly: [] }), before: items.length });
    else if (kept.has(index)) {
      const newly = off.take([...action.effects.freed, ...action.effects.aside]);
      items.push(itemOf(source, run, { index, newly }));
      sessions.add(action.session);
    }
  }
  return { items, sessions: [...sessions], failed, unnamed };
};

/** Which failed attempts, with what only they used, were made on what the kept actions took off? None that is kept for something else. */
const attemptsOn = (run: ObservedRun, kept: ReadonlySet<number>): ReadonlySet<LoggedAction> => {
  const attempts = new Set<LoggedAction>();
  for (const index of kept) {
    const action = run.actions[index];
    for (const subject of action ? subjectsOf(action) : [])
      for (const attempt of run.groundwork(index, subject)?.failed ?? []) attempts.add(attempt);
  }
  for (const index of kept) {
    const action = run.actions[index];
    if (action && action.record.outcome !== 'failed') attempts.delete(action);
  }
  return attempts;
};

const itemOf = (
  source: BenchSource,
  run: ObservedRun,
  { index, newly }: { readonly index: number; readonly newly: readonly string[] },
): SequenceItem => {
  const action = run.actions[index];
  if (!action) throw new RangeError(`the run has no action ${index}`);
  const { record, effects } = action;
  return {
    address: addressOf(action),
    atoms: [atomOf(source, run, { index, action })],
    released: effects.released.map((fastener) => ({ fastener, leaves: leavesOf(source, run, { index, fastener }) })),
    off: newly,
    evidence: record.evidence ?? [],
    toolsUnknown: record.tools === undefined,
  };
};

const atomOf = (
  source: BenchSource,
  run: ObservedRun,
  { index, action }: { readonly index: number; readonly action: LoggedAction },
): RouteAtom => {
  const { record, effects } = action;
  const removed = effects.freed[0] ?? effects.aside[0];
  const releases = releaseOf(effects.released, source.device, alreadyOff(run, index)) ?? partOfSet(source, action);
  const milliseconds = run.milliseconds(action);
  const place = record.place ?? record.target;
  return {
    do: record.do ?? 'test',
    tools: toolSet(record.tools),
    ...(milliseconds === undefined ? {} : { milliseconds }),
    ...(place === undefined ? {} : { place }),
    ...(record.do === 'clean' && isAfterRelease(run, index) ? { afterRelease: true } : {}),
    ...(releases === undefined ? {} : { releases }),
    ...(removed === undefined
      ? {}
      : {
          removes: { part: removed, becomes: effects.freed.includes(removed) ? ('free' as const) : ('aside' as const) },
        }),
    ...(record.remote === undefined ? {} : { remote: record.remote }),
  };
};

/** How many pieces of each fastener released here came off before, by partial work? */
const alreadyOff = (run: ObservedRun, index: number): ReadonlyMap<string, number> => {
  const already = new Map<string, number>();
  for (const fastener of run.actions[index]?.effects.released ?? [])
    for (const { record } of run.groundwork(index, fastener)?.partial ?? [])
      already.set(fastener, (already.get(fastener) ?? 0) + (record.did ?? 0));
  return already;
};

/** What does partial work let go? As many pieces as it says, where they come away as items; the set stays fixed. */
const partOfSet = (source: BenchSource, { record }: LoggedAction): RouteAtom['releases'] => {
  const fastener = source.device.fasteners.get(record.target ?? '');
  if (record.outcome !== 'partial' || !fastener || !record.did || !comesAsItems(fastener.kind)) return undefined;
  return { fastener: fastener.id, count: record.did, asItems: true };
};

const isAfterRelease = (run: ObservedRun, index: number): boolean => {
  const target = run.actions[index]?.record.target ?? '';
  return run.actions.slice(0, index).some(({ effects }) => effects.released.includes(target));
};

/** In which class does an action of a run leave a fastener that it releases? Undefined where the way it was done says nothing of it. */
export const leavesOf = (
  source: BenchSource,
  run: ObservedRun,
  { index, fastener: id }: { readonly index: number; readonly fastener: string },
): ReuseClass | undefined => {
  const fastener = source.device.fasteners.get(id);
  const record = run.actions[index]?.record;
  if (!fastener || !record) return undefined;
  const preparations = run.groundwork(index, id)?.preparations.map((action) => action.record);
  return fastener.ways[wayOfEntry(fastener, record, preparations) ?? '']?.leaves;
};
