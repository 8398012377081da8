import { durationMilliseconds } from '#quantity/duration';
import type { PathSegment } from '../problem.ts';
import { unknownNameRemedy } from '../suggest.ts';
import { checkCorrections, unknownEntry } from './check-corrections.ts';
import type { LinkContext } from './check-links.ts';
import { unknownWay } from './check-structure.ts';
import { itemOf, itemsOf, numberOf, type PlainMap, textOf, textsOf } from './plain.ts';

/** Does the log of one session hold together: times, holds, intervals, corrections, counts, ways? */
export const checkSession = (id: string, session: PlainMap, context: LinkContext): void => {
  const path = ['sessions', id];
  const holds = checkSpans([...path, 'holds'], session.holds, context);
  checkOverlaps([...path, 'holds'], holds, { what: 'hold', context });
  checkRetakes([...path, 'retakes'], session, context);
  checkSpans([...path, 'intervals'], session.intervals, context);
  checkCorrections(path, session, context);
  for (const [name, entry] of context.log.entries(id)) {
    const entryPath = [...path, 'entries', name];
    checkTimes(entryPath, entry, context);
    checkInterval(entryPath, entry, { session, context });
    checkTarget(entryPath, entry, context);
    checkOutcome(entryPath, entry, context);
    const ends = textOf(entry.ends);
    if (ends !== undefined && !itemOf(session.entries, ends))
      context.findings.add([...entryPath, 'ends'], unknownEntry(ends, session));
  }
};

interface Span {
  readonly id: string;
  readonly from: number;
  readonly to: number;
}

const checkSpans = (path: readonly PathSegment[], collection: unknown, { findings }: LinkContext): readonly Span[] => {
  const spans: Span[] = [];
  for (const [id, item] of itemsOf(collection)) {
    const [from, to] = [numberOf(item.from), numberOf(item.to)];
    if (from === undefined || to === undefined) continue;
    if (from <= to) spans.push({ id, from, to });
    else
      findings.add([...path, id, 'to'], {
        value: to,
        kind: 'order',
        message: `it ends before it begins at ${from} s`,
        remedy: 'Exchange "from" and "to".',
      });
  }
  return spans;
};

/** Retakes do not overlap, and each repeats an entry of its session; one without an end goes on to the end. */
const checkRetakes = (path: readonly PathSegment[], session: PlainMap, context: LinkContext): void => {
  const spans = checkSpans(path, session.retakes, context);
  checkOverlaps(path, spans, { what: 'retake', context });
  for (const [id, retake] of itemsOf(session.retakes)) {
    const repeats = textOf(retake.repeats);
    if (repeats !== undefined && !itemOf(session.entries, repeats))
      context.findings.add([...path, id, 'repeats'], unknownEntry(repeats, session));
  }
};

/** A pause or a retake cannot begin inside another: one clock, one operator. */
const checkOverlaps = (
  path: readonly PathSegment[],
  spans: readonly Span[],
  { what, context }: { readonly what: string; readonly context: LinkContext },
): void => {
  const ordered = [...spans].sort((a, b) => a.from - b.from || a.to - b.to || (a.id < b.id ? -1 : 1));
  for (const [index, span] of ordered.entries()) {
    const before = ordered[index - 1];
    if (before && span.from < before.to)
      context.findings.add([...path, span.id, 'from'], {
        value: span.from,
        message: `this ${what} begins inside ${what} "${before.id}", which ends at ${before.to} s`,
        remedy: `Make one ${what} of the two, or correct their times.`,
      });
  }
};

const checkTimes = (path: readonly PathSegment[], entry: PlainMap, { findings }: LinkContext): void => {
  const [at, began] = [numberOf(entry.at), numberOf(entry.began)];
  if (at === undefined) return;
  if (began !== undefined && began > at)
    findings.add([...path, 'began'], {
      value: began,
      kind: 'order',
      message: `it begins after its end at ${at} s`,
      remedy: '"at" is the end of the action: correct one of the two.',
    });
  const took = entry.took;
  const milliseconds = typeof took === 'string' || typeof took === 'number' ? durationMilliseconds(took) : undefined;
  if (milliseconds !== undefined && milliseconds > (at + 1) * 1000)
    findings.add([...path, 'took'], {
      value: took,
      kind: 'suspicious',
      severity: 'warning',
      message: `it took longer than the session had lasted at its end (${at} s)`,
      remedy: '"at" is the end of the action in seconds from the start: correct one of the two.',
    });
};

const checkInterval = (
  path: readonly PathSegment[],
  entry: PlainMap,
  { session, context }: { readonly session: PlainMap; readonly context: LinkContext },
): void => {
  const interval = textOf(entry.interval);
  if (interval === undefined || itemOf(session.intervals, interval)) return;
  const names = itemsOf(session.intervals).map(([id]) => id);
  context.findings.add([...path, 'interval'], {
    value: interval,
    kind: 'unknown-reference',
    message: `the session has no interval "${interval}"`,
    remedy: unknownNameRemedy(interval, names, 'Describe it under "intervals" of this session.'),
  });
};

const checkTarget = (path: readonly PathSegment[], entry: PlainMap, { data, findings }: LinkContext): void => {
  const target = textOf(entry.target);
  if (target === undefined) return;
  const part = itemOf(data.parts, target);
  const fastener = itemOf(data.fasteners, target);
  if ((part ?? fastener)?.absent === true)
    findings.add([...path, 'target'], {
      value: target,
      message: `"${target}" is known not to exist`,
      remedy: 'Name what was worked on, or remove "absent" there.',
    });
  checkWay([...path, 'way'], entry, { target, part, fastener, findings });
};

/** A way belongs to the fastener that is worked on. Also for the steps of a procedure. */
export const checkWay = (
  path: readonly PathSegment[],
  { way: named }: PlainMap,
  {
    target,
    part,
    fastener,
    findings,
  }: {
    readonly target: string;
    readonly part: PlainMap | undefined;
    readonly fastener: PlainMap | undefined;
    readonly findings: LinkContext['findings'];
  },
): void => {
  const way = textOf(named);
  if (way === undefined) return;
  if (fastener) {
    const ways = itemsOf(fastener.ways).map(([id]) => id);
    if (!itemOf(fastener.ways, way)) findings.add(path, unknownWay(way, target, ways));
  } else if (part)
    findings.add(path, {
      value: way,
      message: `"${target}" is a part, and only a fastener has ways`,
      remedy: 'Remove the way, or name the fastener as target.',
    });
};

const checkOutcome = (path: readonly PathSegment[], entry: PlainMap, { data, findings }: LinkContext): void => {
  const did = numberOf(entry.did);
  const count = numberOf(itemOf(data.fasteners, entry.target)?.count);
  if (entry.outcome === 'partial' && did !== undefined && count !== undefined && did >= count)
    findings.add([...path, 'did'], {
      value: did,
      message: `the set has ${count}; ${did} of ${count} is not part of it`,
      remedy: 'Write outcome: done, or correct the number.',
    });
  if (entry.outcome !== 'partial' && did !== undefined && count !== undefined && did !== count)
    findings.add([...path, 'did'], {
      value: did,
      message: `${did} of ${count} came off, but the outcome is not partial`,
      remedy: 'Write outcome: partial, or leave "did" out.',
    });
  if (entry.outcome === 'failed' && textsOf(entry.released).includes(String(entry.target)))
    findings.add([...path, 'released'], {
      value: entry.target,
      message: 'the action failed, yet its target is listed as released',
      remedy: 'Correct the outcome or the list.',
    });
};
