import type { Device } from '#record/device/device';
import type { Entry } from '#record/schema/assessment';

/** How does an entry read in the log? `unscrew 3 of 3, bracket screws: came` in the order in which the bench says it. */
export const entryWords = (entry: Entry, device: Device): string => {
  if (entry.do === undefined) return unnamedWords(entry);
  const name = (key: string): string =>
    device.parts.get(key)?.name ?? device.fasteners.get(key)?.name ?? key.replaceAll('-', ' ');
  const count = device.fasteners.get(entry.target ?? '')?.count ?? 1;
  const all =
    entry.outcome === 'partial' ? partWords(entry.did, count) : count > 1 ? `${count} of ${count}` : undefined;
  const what = [entry.do.replaceAll('-', ' '), all, entry.target === undefined ? entry.place : name(entry.target)];
  const how = [entry.reach, entry.target === undefined ? undefined : entry.place].filter(Boolean);
  const came = [
    ...(entry.free ?? []).map((key) => (key === entry.target ? 'free' : `${name(key)} free`)),
    ...(entry.aside ?? []).map((key) => (key === entry.target ? 'aside' : `${name(key)} aside`)),
  ];
  const reason = entry.because?.replaceAll('-', ' ');
  const end = entry.outcome === 'failed' ? ['failed', reason] : entry.outcome === 'partial' ? [...came, reason] : came;
  const ends = end.filter(Boolean).join(', ');
  return [what.filter(Boolean).join(' '), ...how].join(', ') + (ends === '' ? '' : `: ${ends}`);
};

/** How many of a set were done; of a set nobody described, that there are more. */
const partWords = (did: number | undefined, count: number): string => {
  if (count > 1) return `${did ?? 'some'} of ${count}`;
  return did === undefined ? 'partly' : `${did}, not all,`;
};

const unnamedWords = ({ began, note, place }: Entry): string => {
  if (note !== undefined) return note;
  return began === undefined ? 'marked, not named yet' : `going on${place === undefined ? '' : `, ${place}`}`;
};
