import type { Assessment, Entry } from '../schema/assessment.ts';
import { standingEntries } from '../standing-entries.ts';
import { RELEASING } from './action-kinds.ts';
import { type Joints, jointsReleased } from './joints.ts';
import { roleFromId } from './priority-roles.ts';

/** What does only a log name? Part ids, and fastener ids with the action that let each go (undefined where none is named). */
export interface LoggedSubjects {
  readonly parts: ReadonlySet<string>;
  readonly fasteners: ReadonlyMap<string, string | undefined>;
}

/**
 * Which parts and fasteners does only a log name? What came free or aside, was lifted or laid aside is a part; so is the
 * target of a releasing action that goes by a priority role's name. Any other target of a releasing action is a fastener, and
 * a part pried or pulled off by itself has an undescribed joint. Withdrawn and corrected entries name nothing. Linear.
 */
export const loggedSubjects = (assessment: Assessment, joints: Joints): LoggedSubjects => {
  const entries = entriesInOrder(assessment);
  const parts = loggedParts(assessment, entries);
  const isPart = (id: string): boolean => assessment.parts?.[id] !== undefined || parts.has(id);
  const isDescribed = (id: string): boolean => assessment.fasteners?.[id] !== undefined;
  const tried = new Map<string, string | undefined>();
  const released = new Map<string, string | undefined>();
  for (const entry of entries) {
    const done = entry.outcome === undefined || entry.outcome === 'done';
    for (const id of fastenersNamed(entry, joints, isPart))
      if (!isDescribed(id)) {
        const into = done ? released : tried;
        if (!into.has(id)) into.set(id, entry.do);
      }
  }
  return { parts, fasteners: new Map([...tried, ...released]) };
};

const entriesInOrder = (assessment: Assessment): readonly Entry[] =>
  Object.values(assessment.sessions ?? {})
    .toSorted((a, b) => Date.parse(a.start) - Date.parse(b.start))
    .flatMap((session) => standingEntries(session).map(([, entry]) => entry));

const MOVING: ReadonlySet<string> = new Set(['lift', 'fold-aside']);

const loggedParts = (assessment: Assessment, entries: readonly Entry[]): ReadonlySet<string> => {
  const parts = new Set<string>();
  for (const entry of entries) {
    const named = [...(entry.free ?? []), ...(entry.aside ?? [])];
    const { target, do: action = '' } = entry;
    if (target !== undefined && (MOVING.has(action) || (RELEASING.has(action) && roleFromId(target) !== undefined)))
      named.push(target);
    for (const id of named)
      if (assessment.parts?.[id] === undefined && assessment.fasteners?.[id] === undefined) parts.add(id);
  }
  return parts;
};

const fastenersNamed = (entry: Entry, joints: Joints, isPart: (id: string) => boolean): readonly string[] => {
  const { target, do: action = '' } = entry;
  const listed = entry.released ?? [];
  if (target === undefined || !RELEASING.has(action)) return listed;
  if (!isPart(target)) return [target, ...listed];
  return listed.length > 0 ? listed : jointsReleased(joints, target, action);
};
