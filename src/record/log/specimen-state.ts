import type { Device } from '../device/device.ts';
import type { LoggedAction } from './bench-log.ts';

/** Who made something come off: the entry, and what it was done for (undefined: for everything that follows). */
export interface OffMark {
  readonly session: string;
  readonly entry: string;
  readonly goals: readonly string[] | undefined;
}

/** A part that is off: alone or aside, since which entry, and on which carrier it went along (undefined: it was moved itself). */
export interface OffPart {
  readonly state: 'aside' | 'free';
  readonly mark: OffMark;
  readonly carriedBy: string | undefined;
}

/** What is off one specimen at a moment? Fasteners released; parts aside or free; with the entry that did it. */
export class SpecimenState {
  readonly released = new Map<string, OffMark>();
  readonly parts = new Map<string, OffPart>();
  private readonly device: Device;

  constructor(device: Device) {
    this.device = device;
  }

  /** Is this part aside or free, or this fastener released? */
  isOff(id: string): boolean {
    return this.released.has(id) || this.parts.has(id);
  }

  /** Everything off, parts and fasteners alike: fasteners, then parts, each in the order it came off. */
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
    this.parts.set(id, { state, mark, carriedBy: undefined });
    for (const inside of this.contents(id)) {
      const off = this.parts.get(inside);
      if (!off) this.parts.set(inside, { state: 'aside', mark, carriedBy: id });
      else if (off.carriedBy !== undefined && !this.contents(id).has(off.carriedBy))
        this.parts.set(inside, { ...off, carriedBy: id });
    }
  }

  /** A part goes back with all that is on it; what was taken off it by itself stays off, and fasteners stay released until they are refitted. */
  private refit(id: string): void {
    this.released.delete(id);
    if (!this.device.parts.has(id)) {
      this.parts.delete(id);
      return;
    }
    const carrier = this.carrierOff(id);
    const along = [id, ...[...this.contents(id)].filter((inside) => this.parts.get(inside)?.carriedBy === id)];
    for (const part of along)
      if (carrier) this.parts.set(part, { state: 'aside', mark: carrier.mark, carriedBy: carrier.id });
      else this.parts.delete(part);
  }

  /** The nearest carrier that is itself off the device: what is put back into it is aside with it. */
  private carrierOff(id: string): { readonly id: string; readonly mark: OffMark } | undefined {
    const within = this.device.parts.get(id)?.within;
    const off = within === undefined ? undefined : this.parts.get(within);
    return within === undefined || !off ? undefined : { id: off.carriedBy ?? within, mark: off.mark };
  }

  private contents(id: string): ReadonlySet<string> {
    const cluster = this.device.parts.get(id)?.cluster;
    if (!cluster) return NOTHING;
    const rest = new Set(cluster);
    rest.delete(id);
    return rest;
  }
}

const NOTHING: ReadonlySet<string> = new Set();
