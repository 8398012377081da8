import type { Device } from '../device/device.ts';
import type { LoggedAction } from './bench-log.ts';

/** Who made something come off: the entry, and what it was done for (undefined: for everything that follows). */
export interface OffMark {
  readonly session: string;
  readonly entry: string;
  readonly goals: readonly string[] | undefined;
}

/** What is off one specimen at a moment? Fasteners released; parts aside or free; with the entry that did it. */
export class SpecimenState {
  readonly released = new Map<string, OffMark>();
  readonly parts = new Map<string, { readonly state: 'aside' | 'free'; readonly mark: OffMark }>();
  private readonly device: Device;

  constructor(device: Device) {
    this.device = device;
  }

  /** Is this part aside or free, or this fastener released? */
  isOff(id: string): boolean {
    return this.released.has(id) || this.parts.has(id);
  }

  /** Everything off, parts and fasteners alike, in the order it came off. */
  off(): readonly (readonly [string, OffMark])[] {
    return [...this.released, ...[...this.parts].map(([id, { mark }]) => [id, mark] as const)];
  }

  /** Applies what an action changed: releases, what came free or aside with its contents, what was put back. */
  apply(action: LoggedAction): void {
    const mark: OffMark = { session: action.session, entry: action.entry, goals: action.goals };
    for (const id of action.effects.released) this.released.set(id, mark);
    for (const id of action.effects.freed) this.move(id, 'free', mark);
    for (const id of action.effects.aside) this.move(id, 'aside', mark);
    for (const id of action.effects.refitted) this.refit(id);
  }

  private move(id: string, state: 'aside' | 'free', mark: OffMark): void {
    this.parts.set(id, { state, mark });
    for (const inside of this.device.parts.get(id)?.cluster ?? [])
      if (inside !== id && !this.parts.has(inside)) this.parts.set(inside, { state: 'aside', mark });
  }

  private refit(id: string): void {
    this.released.delete(id);
    this.parts.delete(id);
    for (const inside of this.device.parts.get(id)?.cluster ?? [])
      if (this.parts.get(inside)?.state === 'aside') this.parts.delete(inside);
  }
}
