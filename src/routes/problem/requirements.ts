import type { Device } from '#record/device/device';
import { overriddenAddresses } from '#record/device/overridden';
import type { Assessment } from '#record/schema/assessment';
import { offFact } from './off-fact.ts';
import type { Fact } from './route-problem.ts';

/** One precedence for another reason than access, with its address so that a decision can override it. */
export interface Precedence {
  readonly address: string;
  readonly why: 'isolation' | 'support' | 'makers-instruction';
  readonly first: readonly Fact[];
}

/** Parts whose charge or mains connection asks for isolation, as electrical connectors do. */
const POWERED_ROLES: ReadonlySet<string> = new Set(['power-unit', 'capacitor']);

/**
 * What must be off first for other reasons than access? Isolation by default (the battery connector before any other
 * electrical connector, power unit or capacitor), support, maker's instruction; less what a named decision overrides.
 * Trials never clear these. What is known not to exist need not come first.
 */
export const precedencesOf = (subject: string, assessment: Assessment, device: Device): readonly Precedence[] => {
  const kind = device.fasteners.has(subject) ? 'fasteners' : 'parts';
  const record = device.fasteners.get(subject)?.record ?? device.parts.get(subject)?.record;
  const all: Precedence[] = isolation(subject, device, kind);
  for (const [name, requirement] of Object.entries(record?.requires ?? {}))
    all.push({
      address: `${kind}/${subject}/requires/${name}`,
      why: requirement.why,
      first: requirement.first
        .filter((id) => id !== subject && (device.parts.has(id) || device.fasteners.has(id)))
        .map((id) => offFact(id, device)),
    });
  const overridden = overriddenAddresses(assessment);
  return all.filter((precedence) => precedence.first.length > 0 && !overridden.has(precedence.address));
};

const isolation = (subject: string, device: Device, kind: string): Precedence[] => {
  const fastener = device.fasteners.get(subject);
  const bound = fastener
    ? fastener.electrical && !fastener.batteryConnector
    : POWERED_ROLES.has(device.parts.get(subject)?.role ?? '');
  if (!bound) return [];
  const first = device.batteryConnectors.map((id): Fact => `released/${id}`);
  return [{ address: `${kind}/${subject}/requires/isolation`, why: 'isolation', first }];
};
