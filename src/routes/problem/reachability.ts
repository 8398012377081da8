import type { Device } from '#record/device/device';
import type { SubjectTrials } from '#record/log/trials';
import { offFact } from './off-fact.ts';
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

/**
 * When is a part or fastener reachable, as a monotone function of what is off? By sight the function is whole. Pessimistic:
 * when what is off holds a positive trial's set. Optimistic: unless what is off lies inside a negative trial's set; where a
 * success contradicts a failure, the success stands (something did come) and the contradiction is reported elsewhere.
 */
export const reachCondition = (
  subject: string,
  trials: SubjectTrials,
  context: { readonly device: Device; readonly reach: Reach },
): ReachCondition => {
  const { device, reach } = context;
  if (trials.sight) return trials.sight.length === 0 ? FREE : anyAlternative(trials.sight, device);
  if (reach === 'optimistic') return outsideFailures(trials, subject, device);
  if (trials.positive.length === 0) return { reachable: false, why: 'no trial or sight shows when it can be reached' };
  return anyAlternative(
    trials.positive.map((trial) => trial.off),
    device,
  );
};

const anyAlternative = (sets: readonly (readonly string[])[], device: Device): ReachCondition => {
  const alternatives = sets.map((set) => set.map((id) => offFact(id, device)));
  if (alternatives.some((facts) => facts.length === 0)) return FREE;
  const [only, ...others] = alternatives;
  return only && others.length === 0
    ? { reachable: true, needs: only, anyOf: [] }
    : { reachable: true, needs: [], anyOf: [alternatives] };
};

/** Outside every failed set: for each failure, something not in it must be off, or a whole set with which it did come. */
const outsideFailures = (trials: SubjectTrials, subject: string, device: Device): ReachCondition => {
  const all = [...device.parts.keys(), ...device.fasteners.keys()].filter((id) => id !== subject);
  const clauses: (readonly (readonly Fact[])[])[] = [];
  for (const failure of trials.negative) {
    const off = new Set([...failure.off, ...(failure.besides ?? [])]);
    const outside = all.filter((id) => !off.has(id)).map((id) => [offFact(id, device)]);
    const came = trials.positive
      .filter((success) => success.off.every((id) => off.has(id)))
      .map((success) => success.off.map((id) => offFact(id, device)));
    if (came.some((facts) => facts.length === 0)) continue;
    if (outside.length + came.length === 0)
      return { reachable: false, why: 'it did not come with everything else off' };
    clauses.push([...outside, ...came]);
  }
  return { reachable: true, needs: [], anyOf: clauses };
};
