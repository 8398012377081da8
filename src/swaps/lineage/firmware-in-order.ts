import { compareFirmware } from '#record/device/firmware-order';

/**
 * In which order do firmware versions follow one another, the oldest first? As `listed` where the record lists every one of
 * them, else by their numbers; where nothing says which of two is the older, by their text. Each version once; independent of the
 * order in which they are given.
 */
export const firmwareInOrder = (versions: Iterable<string>, listed: readonly string[] = []): readonly string[] => {
  const all = [...new Set(versions)];
  if (all.every((version) => listed.includes(version))) return listed.filter((version) => all.includes(version));
  const isDotted = all.every((version) => compareFirmware(version, '0') !== undefined);
  const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
  return all.sort((a, b) => (isDotted ? compareFirmware(a, b) : undefined) || byText(a, b));
};
