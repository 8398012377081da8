import { addressOf, benchRuns, type LoggedAction, startsComplete } from '#record/log/bench-log';
import { damageIndex, damageVerdictAt } from '#record/log/damage-index';
import { binds } from '#record/log/goal-binds';
import { walkRun } from '#record/log/replay';
import type { SpecimenState } from '#record/log/specimen-state';
import type { RouteSource } from './from-record.ts';

type Becomes = 'aside' | 'free';

/** Fasteners that only a log names: nobody said between which parts they are. */
const undescribed = ({ device }: RouteSource): readonly string[] =>
  [...device.fasteners.values()].filter(({ between }) => between === undefined).map(({ id }) => id);

/** By `part/becomes`: undescribed fasteners that were off, and not for another goal, each time the part came so. */
type OffEachTime = ReadonlyMap<string, ReadonlySet<string>>;

const known = new WeakMap<RouteSource, OffEachTime>();

/**
 * Which fasteners that nobody described may hold a part when it is laid aside or lifted free? What was still on when it came so
 * without damage, in a run that began complete, does not hold it; nor does what was undone for another goal. Where it never
 * came, any of them may. Worked out once a record: linear in the log times what is off.
 */
export const undescribedHolders = (part: string, becomes: Becomes, source: RouteSource): readonly string[] => {
  const all = undescribed(source);
  if (all.length === 0) return [];
  const found = known.get(source) ?? offEachTime(source, new Set(all));
  known.set(source, found);
  const free = found.get(`${part}/free`);
  // What does not hold a part that goes free does not hold one laid aside either; the other way round it may be a tether.
  const aside = becomes === 'aside' ? found.get(`${part}/aside`) : undefined;
  return all.filter((id) => free?.has(id) !== false && aside?.has(id) !== false);
};

const offEachTime = (source: RouteSource, open: ReadonlySet<string>): OffEachTime => {
  const { assessment, device } = source;
  const damages = damageIndex(assessment, device);
  const found = new Map<string, Set<string>>();
  const note = (key: string, off: ReadonlySet<string>): void => {
    const old = found.get(key);
    found.set(key, new Set([...off].filter((id) => old?.has(id) !== false)));
  };
  for (const run of benchRuns(assessment))
    if (startsComplete(assessment, run))
      walkRun(source, run, (action, before) => {
        const { freed, aside } = action.effects;
        if (freed.length + aside.length === 0 || damageVerdictAt(damages, addressOf(action)) !== 'whole') return;
        for (const id of freed) note(`${id}/free`, boundOff(id, { action, before, open }));
        for (const id of aside) note(`${id}/aside`, boundOff(id, { action, before, open }));
      });
  return found;
};

/** Which undescribed fasteners were off when a part came, less what was undone for other goals than the part or its entry? */
const boundOff = (
  part: string,
  at: { readonly action: LoggedAction; readonly before: SpecimenState; readonly open: ReadonlySet<string> },
): ReadonlySet<string> => {
  const { action, before, open } = at;
  const bound = new Set(action.effects.released.filter((id) => open.has(id)));
  for (const [id, mark] of before.released) if (open.has(id) && binds(mark, part, action.goals)) bound.add(id);
  return bound;
};
