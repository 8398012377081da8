import type { Device } from '#record/device/device';
import type { Assessment } from '#record/schema/assessment';
import { offFact } from './reachability.ts';
import type { Fact } from './route-problem.ts';

/** One precedence for another reason than access, with its address so that a decision can override it. */
export interface Precedence {
  readonly address: string;
  readonly why: 'isolation' | 'support' | 'makers-instruction';
  readonly first: readonly Fact[];
}

/**
 * What must be off first for other reasons than access? Isolation by default (the battery connector before any other
 * electrical connector, power unit or capacitor), support, maker's instruction; less what a named decision overrides.
 * Trials never clear these.
 */
export const precedencesOf = (subject: string, assessment: Assessment, device: Device): readonly Precedence[] => {
  const kind = device.fasteners.has(subject) ? 'fasteners' : 'parts';
  const record = device.fasteners.get(subject)?.record ?? device.parts.get(subject)?.record;
  const overridden = new Set(
    Object.values(assessment.decisions ?? {}).map((decision) => decision.overrides.replace(/^\//, '')),
  );
  const all: Precedence[] = isolation(subject, device, kind);
  for (const [name, requirement] of Object.entries(record?.requires ?? {}))
    all.push({
      address: `${kind}/${subject}/requires/${name}`,
      why: requirement.why,
      first: requirement.first.filter((id) => id !== subject).map((id) => offFact(id, device)),
    });
  return all.filter((precedence) => !overridden.has(precedence.address));
};

const isolation = (subject: string, device: Device, kind: string): Precedence[] => {
  const fastener = device.fasteners.get(subject);
  const role = device.parts.get(subject)?.role;
  const bound = fastener
    ? fastener.electrical && !fastener.batteryConnector
    : role === 'power-unit' || role === 'capacitor';
  if (!bound) return [];
  const connectors = [...device.fasteners.values()]
    .filter((other) => other.batteryConnector)
    .map((other): Fact => `released/${other.id}`);
  return connectors.length === 0
    ? []
    : [{ address: `${kind}/${subject}/requires/isolation`, why: 'isolation', first: connectors }];
};
