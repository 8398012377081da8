import type { Device } from '#record/device/device';
import type { LoggedAction } from '#record/log/bench-log';
import { SpecimenState } from '#record/log/specimen-state';
import type { Fact } from '../problem/route-problem.ts';

/** Since which action a fact holds, or undefined from the action on that undid it. */
interface Change {
  readonly at: number;
  readonly holds: boolean;
}

/**
 * Which action of a run brought each fact about, at any moment of it? Follows the specimen, so that what was put back no
 * longer holds. Cost: linear in the run times what goes along with a part.
 */
export class RunHistory {
  private readonly changes = new Map<Fact, Change[]>();

  constructor(device: Device, actions: readonly LoggedAction[]) {
    const state = new SpecimenState(device);
    for (const [at, action] of actions.entries()) {
      const { released, freed, aside, refitted } = action.effects;
      const touched = new Set([...released, ...freed, ...aside, ...refitted]);
      for (const id of [...touched]) for (const inside of device.parts.get(id)?.cluster ?? []) touched.add(inside);
      state.apply(action);
      for (const id of touched) {
        if (device.fasteners.has(id)) this.note(`released/${id}`, at, state.released.has(id));
        else {
          this.note(`off/${id}`, at, state.parts.has(id));
          this.note(`free/${id}`, at, state.parts.get(id)?.state === 'free');
        }
      }
    }
  }

  /** Which action brought a fact about that held just before the given one? Undefined where it did not hold. */
  giver(fact: Fact, before: number): number | undefined {
    const last = this.changes.get(fact)?.findLast((change) => change.at < before);
    return last?.holds ? last.at : undefined;
  }

  /** Every fact that held just before an action, in no order. */
  heldBefore(before: number): readonly Fact[] {
    return [...this.changes.keys()].filter((fact) => this.giver(fact, before) !== undefined);
  }

  private note(fact: Fact, at: number, holds: boolean): void {
    const changes = this.changes.get(fact);
    if ((changes?.at(-1)?.holds ?? false) === holds) return;
    if (changes) changes.push({ at, holds });
    else this.changes.set(fact, [{ at, holds }]);
  }
}
