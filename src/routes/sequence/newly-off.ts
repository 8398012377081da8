import type { Device } from '#record/device/device';

/** Follows a sequence and tells which parts each of its items newly sets aside or frees, contents included. */
export class NewlyOff {
  private readonly device: Device;
  private readonly off = new Set<string>();

  constructor(device: Device) {
    this.device = device;
  }

  /** Which parts are newly off when these move? They are off from then on. */
  take(moved: readonly string[]): readonly string[] {
    const newly = new Set(
      moved
        .flatMap((part) => [...(this.device.parts.get(part)?.cluster ?? [part])])
        .filter((part) => !this.off.has(part)),
    );
    for (const part of newly) this.off.add(part);
    return [...newly];
  }
}
