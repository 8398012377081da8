import type { PathSegment } from '../problem.ts';
import { unknownNameRemedy } from '../suggest.ts';
import type { LinkContext } from './check-links.ts';
import { circlesOf } from './cycles.ts';
import { itemOf, itemsOf, type PlainMap, textOf } from './plain.ts';

/** Does every correction point at one other entry of its session, each entry be corrected once, and no circle arise? */
export const checkCorrections = (
  path: readonly PathSegment[],
  session: PlainMap,
  { log, findings }: LinkContext,
): void => {
  const corrected = new Map<string, string>();
  const next = new Map<string, string[]>();
  for (const [id, entry] of log.entries(String(path[1]))) {
    const old = textOf(entry.corrects);
    const place = [...path, 'entries', id, 'corrects'];
    if (old === undefined) {
      if (entry.withdrawn === true) findings.add([...path, 'entries', id, 'withdrawn'], WITHDRAWN);
      continue;
    }
    if (!itemOf(session.entries, old)) findings.add(place, unknownEntry(old, session));
    else if (corrected.has(old)) findings.add(place, twice(old, corrected.get(old) ?? ''));
    else {
      corrected.set(old, id);
      next.set(id, [old]);
    }
  }
  for (const [first = '', ...rest] of circlesOf(next))
    findings.add([...path, 'entries', first, 'corrects'], {
      value: rest[0] ?? first,
      kind: 'cycle',
      message: `corrections go in a circle: ${[first, ...rest, first].slice(0, 12).join(' → ')}`,
      remedy: 'A correction points at an earlier entry: take out one link.',
    });
};

const WITHDRAWN = {
  value: true,
  message: 'an entry is withdrawn by a later one that corrects it',
  remedy: 'Leave the entry as it was; add one with "corrects" and "withdrawn".',
};

/** What is said of an entry named that its session does not have. */
export const unknownEntry = (old: string, session: PlainMap) => ({
  value: old,
  kind: 'unknown-reference' as const,
  message: `the session has no entry "${old}"`,
  remedy: unknownNameRemedy(
    old,
    itemsOf(session.entries).map(([id]) => id),
    'Name an entry of this session.',
  ),
});

const twice = (old: string, other: string) => ({
  value: old,
  message: `entry "${old}" is already corrected by "${other}"`,
  remedy: `Correct "${other}" instead, so that one entry stands in the end.`,
});
