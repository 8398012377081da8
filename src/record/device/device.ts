import type { Assessment, Fastener, Part, Way } from '../schema/assessment.ts';
import { kindOfAction } from './action-kinds.ts';
import { clustersOf, crossingOf } from './clusters.ts';
import { type Joints, jointsOf } from './joints.ts';
import { loggedSubjects } from './logged-subjects.ts';
import { roleFromId } from './priority-roles.ts';

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

/** One fastener of the device; `between` is undefined where only a log names it, or nobody said what it holds. */
export interface DeviceFastener {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly count: number;
  readonly between: readonly [string, string] | undefined;
  readonly ways: Readonly<Record<string, Way>>;
  readonly electrical: boolean;
  /** Joins a battery with its contents to the rest: the first to be undone. */
  readonly batteryConnector: boolean;
  readonly tether: boolean;
  readonly record: Fastener | undefined;
}

/** The device as recorded, with what only its logs name, absent things left out. */
export interface Device {
  readonly parts: ReadonlyMap<string, DevicePart>;
  readonly fasteners: ReadonlyMap<string, DeviceFastener>;
  /** Ids of the fasteners that join a battery to the rest. */
  readonly batteryConnectors: readonly string[];
  /** Described fasteners by the parts they end at. */
  readonly joints: Joints;
}

/** How is a part or fastener called on paper? Its name, else its id with blanks for hyphens. */
const nameOf = (id: string, name: string | undefined): string => name ?? id.replaceAll('-', ' ');

/**
 * What device does a record describe? The parts and fasteners as recorded, plus those that only a log names ("parts and
 * fasteners appear as they are logged"). Cost linear in the record but for nested carriers. Throws a record error where
 * carriers are nested too deep.
 */
export const deviceOf = (assessment: Assessment): Device => {
  const joints = jointsOf(assessment);
  const logged = loggedSubjects(assessment, joints);
  const records = assessment.parts ?? {};
  const partIds = [...Object.keys(records), ...logged.parts].filter((id) => records[id]?.absent !== true);
  const clusters = clustersOf(partIds, records);
  const batteries = partIds
    .filter((id) => roleOf(assessment, id) === 'battery')
    .map((id) => clusters.get(id) ?? new Set([id]));
  const fasteners = new Map<string, DeviceFastener>();
  for (const [id, record] of Object.entries(assessment.fasteners ?? {}))
    if (record.absent !== true) fasteners.set(id, describedFastener(id, record, batteries));
  for (const [id, action] of logged.fasteners) fasteners.set(id, loggedFastener(id, action, batteries));
  const batteryConnectors = [...fasteners.values()].filter((one) => one.batteryConnector).map((one) => one.id);
  return { parts: partsOf(assessment, clusters, fasteners), fasteners, batteryConnectors, joints };
};

const partsOf = (
  assessment: Assessment,
  clusters: ReadonlyMap<string, ReadonlySet<string>>,
  fasteners: ReadonlyMap<string, DeviceFastener>,
): ReadonlyMap<string, DevicePart> => {
  const crossing = crossingOf(clusters, fasteners.values());
  const parts = new Map<string, DevicePart>();
  for (const [id, cluster] of clusters) {
    const record = assessment.parts?.[id];
    parts.set(id, {
      id,
      name: nameOf(id, record?.name),
      role: roleOf(assessment, id),
      within: record?.within !== undefined && clusters.has(record.within) ? record.within : undefined,
      cluster,
      crossing: crossing.get(id) ?? [],
      record,
    });
  }
  return parts;
};

const roleOf = (assessment: Assessment, id: string): string | undefined => {
  const record = assessment.parts?.[id];
  return record ? record.role : roleFromId(id);
};

const carriesCurrent = (kind: string): boolean => kind === 'connector' || kind === 'solder';

const describedFastener = (id: string, record: Fastener, batteries: readonly ReadonlySet<string>[]): DeviceFastener => {
  const electrical = record.electrical ?? carriesCurrent(record.kind);
  return {
    id,
    name: nameOf(id, record.name),
    kind: record.kind,
    count: record.count ?? 1,
    between: record.between,
    ways: record.ways ?? {},
    electrical,
    batteryConnector: electrical && joinsBattery(id, record.between, batteries),
    tether: record.tether === true,
    record,
  };
};

/** Does a fastener join a battery with its contents to the rest? By its ends; by its name where nobody said them. */
const joinsBattery = (
  id: string,
  between: DeviceFastener['between'],
  batteries: readonly ReadonlySet<string>[],
): boolean => {
  if (between) return batteries.some((battery) => battery.has(between[0]) !== battery.has(between[1]));
  const isNamedSo = batteries.some((battery) => [...battery].some((part) => id.startsWith(`${part}-`)));
  return isNamedSo || (batteries.length === 0 && id.startsWith('battery-'));
};

/** What is known of a fastener that only a log names? Its kind by the action that let it go; the battery's connector by its name. */
const loggedFastener = (
  id: string,
  action: string | undefined,
  batteries: readonly ReadonlySet<string>[],
): DeviceFastener => {
  const kind = kindOfAction(action);
  const electrical = carriesCurrent(kind);
  return {
    id,
    name: nameOf(id, undefined),
    kind,
    count: 1,
    between: undefined,
    ways: {},
    electrical,
    batteryConnector: electrical && joinsBattery(id, undefined, batteries),
    tether: false,
    record: undefined,
  };
};
