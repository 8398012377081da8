import type { Device } from '#record/device/device';
import type { SubjectTrials } from '#record/log/trials';
import type { Fact, Reach } from './route-problem.ts';

/** When may a part or fastener be worked on? All of `needs`, and of each clause one alternative; or never, with the reason. */
export type ReachCondition =
  | {
      readonly reachable: true;
      readonly needs: readonly Fact[];
      readonly anyOf: readonly (readonly (readonly Fact[])[])[];
    }
  | { readonly reachable: false; readonly why: string };

const FREE: ReachCondition = { reachable: true, needs: [], anyOf: [] };

/** Which fact says that this part is off or this fastener released? */
export const offFact = (id: string, device: Device): Fact =>
  device.fasteners.has(id) ? `released/${id}` : `off/${id}`;

/**
 * When is a part or fastener reachable, as a monotone function of what is off? By sight the function is whole. Pessimistic:
 * when what is off holds a positive trial's set. Optimistic: unless what is off lies inside a negative trial's set.
 */
export const reachCondition = (
  subject: string,
  trials: SubjectTrials,
  context: { readonly device: Device; readonly reach: Reach },
): ReachCondition => {
  const { device, reach } = context;
  if (trials.sight) return anyAlternative(trials.sight, subject, device);
  if (reach === 'pessimistic') {
    if (trials.positive.length === 0)
      return { reachable: false, why: `no trial or sight shows when ${subject} can be reached` };
    return anyAlternative(
      trials.positive.map((trial) => trial.off),
      subject,
      device,
    );
  }
  return outsideFailures(trials, subject, device);
};

const anyAlternative = (sets: readonly (readonly string[])[], subject: string, device: Device): ReachCondition => {
  if (sets.length === 0) return FREE;
  const alternatives = sets.map((set) => set.filter((id) => id !== subject).map((id) => offFact(id, device)));
  if (alternatives.some((facts) => facts.length === 0)) return FREE;
  const [only, ...others] = alternatives;
  return only && others.length === 0
    ? { reachable: true, needs: only, anyOf: [] }
    : { reachable: true, needs: [], anyOf: [alternatives] };
};

/** Outside every failed set: for each failure, something not in it must be off. What has a success with less off is reachable there too. */
const outsideFailures = (trials: SubjectTrials, subject: string, device: Device): ReachCondition => {
  const all = [...device.parts.keys(), ...device.fasteners.keys()].filter((id) => id !== subject);
  const clauses: Fact[][][] = [];
  for (const failure of trials.negative) {
    const off = new Set(failure.off);
    const outside = all.filter((id) => !off.has(id)).map((id) => [offFact(id, device)]);
    if (outside.length === 0) return { reachable: false, why: `${subject} did not come with everything else off` };
    clauses.push(outside);
  }
  return { reachable: true, needs: [], anyOf: clauses };
};
