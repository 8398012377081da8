import type { Device } from '#record/device/device';
import type { RouteAtom } from '#routes/problem/route-problem';
import type { SequenceItem } from '#routes/sequence/bench-sequence';

/** How are parts, fasteners and tools called on paper? By their recorded names, ids with blanks for hyphens otherwise. */
export interface Names {
  readonly part: (id: string) => string;
  readonly fastener: (id: string) => string;
  readonly tool: (id: string) => string;
  readonly any: (id: string) => string;
}

/** The names of one record. */
export const namesOf = (device: Device, tools: Readonly<Record<string, { readonly name: string }>>): Names => {
  const part = (id: string): string => device.parts.get(id)?.name ?? id.replaceAll('-', ' ');
  const fastener = (id: string): string => device.fasteners.get(id)?.name ?? id.replaceAll('-', ' ');
  const tool = (id: string): string => tools[id]?.name ?? id.replaceAll('-', ' ');
  return { part, fastener, tool, any: (id) => (device.fasteners.has(id) ? fastener(id) : part(id)) };
};

/** What does one item of a sequence do, in words? One phrase an atom. */
export const itemWords = (item: SequenceItem, names: Names, device: Device): readonly string[] =>
  item.atoms.map((atom) => atomWords(atom, item, { names, device }));

const atomWords = (
  atom: RouteAtom,
  item: SequenceItem,
  { names, device }: { readonly names: Names; readonly device: Device },
): string => {
  const verb = atom.do.replaceAll('-', ' ');
  if (atom.removes) {
    const what = names.part(atom.removes.part);
    const released = item.released.map(({ fastener }) => fastenerWords(fastener, names, device)).join(', ');
    const state = atom.removes.becomes === 'free' ? 'free' : 'aside';
    return `${verb} ${released ? `${released}; ` : ''}${what}: ${state}`;
  }
  if (atom.releases)
    return `${verb} ${item.released.map(({ fastener }) => fastenerWords(fastener, names, device)).join(', ')}`;
  const subject = item.released[0]?.fastener;
  const at = atom.place ?? (subject === undefined ? undefined : names.fastener(subject));
  return at === undefined ? verb : `${verb} ${names.any(at)}`;
};

/** A set of fasteners with its count, where it is more than one. */
const fastenerWords = (id: string, names: Names, device: Device): string => {
  const count = device.fasteners.get(id)?.count ?? 1;
  return count > 1 ? `${count} × ${names.fastener(id)}` : names.fastener(id);
};
