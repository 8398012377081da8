import type { Device } from '../device/device.ts';

/**
 * What else must have been off when these parts and fasteners were? The contents of each part, and, for a part that did not
 * go along with a carrier in the list, the fasteners that held it (a tether may still have been on). A trial that names the
 * parts alone means these too. The ids given are left out.
 */
export const offBesides = (off: readonly string[], device: Device): readonly string[] => {
  const listed = new Set(off);
  const besides = new Set<string>();
  for (const id of off) {
    const part = device.parts.get(id);
    if (!part) continue;
    for (const inside of part.cluster) if (!listed.has(inside)) besides.add(inside);
    if (goesAlong(id, listed, device)) continue;
    for (const name of part.crossing)
      if (device.fasteners.get(name)?.tether !== true && !listed.has(name)) besides.add(name);
  }
  return [...besides];
};

const goesAlong = (id: string, listed: ReadonlySet<string>, device: Device): boolean => {
  const seen = new Set([id]);
  for (
    let carrier = device.parts.get(id)?.within;
    carrier !== undefined && !seen.has(carrier);
    carrier = device.parts.get(carrier)?.within
  ) {
    if (listed.has(carrier)) return true;
    seen.add(carrier);
  }
  return false;
};
