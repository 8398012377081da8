import type { Assessment, Entry, Fastener, Part, Way } from '../schema/assessment.ts';

/** Where everything ends that is not a part. */
export const CHASSIS = 'chassis';

/** One part of the device as planners read it: its contents, the fasteners that cross its boundary, and where it was learnt of. */
export interface DevicePart {
  readonly id: string;
  readonly name: string;
  readonly role: string | undefined;
  readonly within: string | undefined;
  /** The part itself and all it carries, however deep. */
  readonly cluster: ReadonlySet<string>;
  /** Fasteners with exactly one end inside the cluster. */
  readonly crossing: readonly string[];
  readonly record: Part | undefined;
}

/** One fastener of the device; `between` is undefined where only a log names it. */
export interface DeviceFastener {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly count: number;
  readonly between: readonly [string, string] | undefined;
  readonly ways: Readonly<Record<string, Way>>;
  readonly electrical: boolean;
  /** Joins a battery to the rest: the first to be undone. */
  readonly batteryConnector: boolean;
  readonly tether: boolean;
  readonly record: Fastener | undefined;
}

/** The device as recorded, with what only its logs name, absent things left out. */
export interface Device {
  readonly parts: ReadonlyMap<string, DevicePart>;
  readonly fasteners: ReadonlyMap<string, DeviceFastener>;
}

/** Which actions let a fastener go, when they are done on it? Preparing it (heat, solvent) does not. */
export const RELEASING: ReadonlySet<string> = new Set([
  'unscrew',
  'pry',
  'release-clips',
  'pull',
  'peel',
  'cut',
  'unplug',
  'desolder',
]);

/** Which actions prepare another, and are fused with it? */
export const PREPARING: ReadonlySet<string> = new Set(['heat', 'dissolve', 'cool']);

/** Which actions put something back? */
export const REFITTING: ReadonlySet<string> = new Set(['fit', 'seat', 'plug', 'fasten', 'bond', 'press', 'close']);

/** Which role has a part that only a log names? The one its id equals or begins with; none otherwise. */
export const roleFromId = (id: string): string | undefined =>
  [
    'battery',
    'display',
    'back-cover',
    'front-camera',
    'rear-camera',
    'charging-port',
    'button',
    'microphone',
    'speaker',
    'hinge',
  ].find((role) => id === role || id.startsWith(`${role}-`));

/** What does the undescribed joint of a part that was pried or pulled off by itself go by? */
export const jointOf = (part: string): string => `${part}.joint`;

const kindOfAction: Readonly<Record<string, string>> = {
  unscrew: 'screw',
  unplug: 'connector',
  'release-clips': 'clip',
  desolder: 'solder',
  pry: 'other',
  pull: 'other',
  peel: 'tape',
  cut: 'other',
};

/** How is a part or fastener called on paper? Its name, else its id with blanks for hyphens. */
export const nameOf = (id: string, name: string | undefined): string => name ?? id.replaceAll('-', ' ');

/**
 * What device does a record describe? The parts and fasteners as recorded, plus those that only a log names ("parts and
 * fasteners appear as they are logged"). Cost linear in the record but for nested carriers.
 */
export const deviceOf = (assessment: Assessment): Device => {
  const logged = loggedSubjects(assessment);
  const fasteners = new Map<string, DeviceFastener>();
  const partIds = [...Object.keys(assessment.parts ?? {}), ...logged.parts].filter(
    (id) => assessment.parts?.[id]?.absent !== true,
  );
  const clusters = clustersOf(partIds, assessment.parts ?? {});
  const batteries = new Set(
    partIds.filter((id) => roleOf(assessment, id) === 'battery').flatMap((id) => [...(clusters.get(id) ?? [])]),
  );
  for (const [id, record] of Object.entries(assessment.fasteners ?? {}))
    if (record.absent !== true) fasteners.set(id, describedFastener(id, record, batteries));
  for (const [id, entry] of logged.fasteners)
    if (!fasteners.has(id)) fasteners.set(id, loggedFastener(id, entry, batteries));
  const crossing = crossingOf(clusters, fasteners.values());
  const parts = new Map<string, DevicePart>();
  for (const id of partIds) {
    const record = assessment.parts?.[id];
    const cluster = clusters.get(id) ?? new Set([id]);
    const within = record?.within !== undefined && clusters.has(record.within) ? record.within : undefined;
    parts.set(id, {
      id,
      name: nameOf(id, record?.name),
      role: roleOf(assessment, id),
      within,
      cluster,
      crossing: crossing.get(id) ?? [],
      record,
    });
  }
  return { parts, fasteners };
};

const roleOf = (assessment: Assessment, id: string): string | undefined => {
  const record = assessment.parts?.[id];
  return record ? record.role : roleFromId(id);
};

const describedFastener = (id: string, record: Fastener, batteries: ReadonlySet<string>): DeviceFastener => {
  const electrical = record.electrical ?? (record.kind === 'connector' || record.kind === 'solder');
  return {
    id,
    name: nameOf(id, record.name),
    kind: record.kind,
    count: record.count ?? 1,
    between: record.between,
    ways: record.ways ?? {},
    electrical,
    batteryConnector: electrical && record.between.some((end) => batteries.has(end)),
    tether: record.tether === true,
    record,
  };
};

const loggedFastener = (id: string, entry: Entry, batteries: ReadonlySet<string>): DeviceFastener => {
  const kind = kindOfAction[entry.do ?? ''] ?? 'other';
  const electrical = kind === 'connector' || kind === 'solder';
  const batteryConnector = electrical && [...batteries].some((part) => id === part || id.startsWith(`${part}-`));
  return {
    id,
    name: nameOf(id, undefined),
    kind,
    count: 1,
    between: undefined,
    ways: {},
    electrical,
    batteryConnector,
    tether: false,
    record: undefined,
  };
};

/** Which parts and fasteners does only a log name? A target of a releasing action is a fastener unless it is known, lifted or refitted as a part. */
const loggedSubjects = (assessment: Assessment): { parts: Set<string>; fasteners: Map<string, Entry> } => {
  const parts = new Set<string>();
  const fasteners = new Map<string, Entry>();
  const entries = Object.values(assessment.sessions ?? {}).flatMap((session) => Object.values(session.entries));
  const knownPart = (id: string): boolean => assessment.parts?.[id] !== undefined || parts.has(id);
  const knownFastener = (id: string): boolean => assessment.fasteners?.[id] !== undefined;
  for (const entry of entries) {
    for (const id of [...(entry.free ?? []), ...(entry.aside ?? [])])
      if (!knownPart(id) && !knownFastener(id)) parts.add(id);
    if (
      entry.target !== undefined &&
      (entry.do === 'lift' || entry.do === 'fold-aside') &&
      !knownPart(entry.target) &&
      !knownFastener(entry.target)
    )
      parts.add(entry.target);
  }
  for (const entry of entries) {
    const { target } = entry;
    if (target === undefined || !RELEASING.has(entry.do ?? '')) continue;
    if (!knownPart(target) && !knownFastener(target) && roleFromId(target) === target) parts.add(target);
    if (knownPart(target) && !entry.released?.length && jointNeeded(assessment, target, entry))
      fasteners.set(jointOf(target), entry);
    else if (!knownPart(target) && !knownFastener(target)) fasteners.set(target, entry);
  }
  for (const entry of entries)
    for (const id of entry.released ?? []) if (!knownFastener(id) && !fasteners.has(id)) fasteners.set(id, entry);
  return { parts, fasteners };
};

/** Does an action on a part itself stand for an undescribed joint? Only where none of its described fasteners is released that way. */
export const jointNeeded = (assessment: Assessment, part: string, entry: Entry): boolean =>
  describedJoints(assessment, part, entry).length === 0;

/** Which described fasteners of a part does an action on the part itself release? Those with a way that has this action. */
export const describedJoints = (assessment: Assessment, part: string, entry: Entry): readonly string[] =>
  Object.entries(assessment.fasteners ?? {})
    .filter(
      ([, fastener]) =>
        fastener.between.includes(part) &&
        Object.values(fastener.ways ?? {}).some((way) => way.actions.some((step) => step.do === entry.do)),
    )
    .map(([id]) => id);

/** What goes along with each part? Itself and everything within it; circles of carriers are cut where they close. */
const clustersOf = (ids: readonly string[], records: Readonly<Record<string, Part>>): Map<string, Set<string>> => {
  const clusters = new Map<string, Set<string>>(ids.map((id) => [id, new Set([id])]));
  for (const id of ids) {
    const seen = new Set<string>([id]);
    for (
      let carrier = records[id]?.within;
      carrier !== undefined && !seen.has(carrier);
      carrier = records[carrier]?.within
    ) {
      seen.add(carrier);
      clusters.get(carrier)?.add(id);
    }
  }
  return clusters;
};

const crossingOf = (
  clusters: ReadonlyMap<string, ReadonlySet<string>>,
  fasteners: Iterable<DeviceFastener>,
): Map<string, string[]> => {
  const holders = new Map<string, string[]>();
  for (const [carrier, cluster] of clusters)
    for (const id of cluster) holders.set(id, [...(holders.get(id) ?? []), carrier]);
  const crossing = new Map<string, string[]>();
  for (const fastener of fasteners) {
    if (!fastener.between) continue;
    const [a, b] = fastener.between;
    for (const carrier of new Set([...(holders.get(a) ?? []), ...(holders.get(b) ?? [])])) {
      const cluster = clusters.get(carrier);
      if (cluster && cluster.has(a) !== cluster.has(b))
        crossing.set(carrier, [...(crossing.get(carrier) ?? []), fastener.id]);
    }
  }
  return crossing;
};
