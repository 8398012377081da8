import type { DeviceFastener, DevicePart } from '#record/device/device';
import type { Entry } from '#record/schema/assessment';
import type { Naming } from '../commands/bench-patches.ts';
import { KINDS_OF_ACTION } from '../entry-line/lexicon.ts';
import type { LiveReadout } from '../live/live-readout.ts';
import { failedBefore } from './failed-before.ts';

/** What a mark was, as far as the tool can think, and why it thinks so. */
export interface Suggestion {
  readonly naming: Naming;
  readonly words: string;
  readonly why: string;
}

/** What a suggestion goes by besides the record. */
export interface SuggestionHints {
  readonly goal: string | undefined;
  /** Ids of fasteners and parts in the order of a route to the goal, where one is known. */
  readonly route: readonly string[];
  /** Ids in the order in which things came off the predecessor, where there was one. */
  readonly before?: readonly string[];
}

/**
 * What may the next mark be? Undefined where nothing on the bench speaks for anything. In this order: the part that nothing
 * holds any more; the rest of a set begun; the next of a known route to the goal; a fastener of the goal, then of any part,
 * whose place is open by sight; where none of these is known, what came next on the predecessor. What just failed is not proposed again: the next way is, or nothing of that thing. It is a proposal to be taken with a key, never an entry by itself.
 */
export const suggestMark = (readout: LiveReadout, hints: SuggestionHints): Suggestion | undefined =>
  looseLift(readout, hints) ??
  restOfSet(readout) ??
  nextOnRoute(readout, hints) ??
  openFastener(readout, hints) ??
  nextAsBefore(readout, hints);

const looseLift = ({ device, off, recent }: LiveReadout, { goal }: SuggestionHints): Suggestion | undefined => {
  const last = recent[0]?.outcome === 'failed' ? undefined : recent[0]?.target;
  // The last that held it has just come: whoever let it go had it before them, even where no sight is recorded.
  const isBared = ({ crossing, record }: DevicePart): boolean =>
    record?.behind === undefined && last !== undefined && crossing.includes(last);
  const loose = [...device.parts.values()].filter(
    (part) =>
      !off.has(part.id) &&
      part.crossing.length > 0 &&
      part.crossing.every((key) => off.has(key)) &&
      (isSeenOpen(part, off) || isBared(part)) &&
      !failedBefore(recent, lifted(part).naming),
  );
  const rank = (part: DevicePart): number => (part.crossing.includes(last ?? '') ? 2 : 0) + (part.id === goal ? 1 : 0);
  const [best] = loose.sort((a, b) => rank(b) - rank(a) || (a.name < b.name ? -1 : 1));
  return best && { ...lifted(best), why: 'nothing recorded holds it any more' };
};

const lifted = (part: DevicePart): Omit<Suggestion, 'why'> => ({
  naming: { do: 'lift', target: part.id, tools: [], free: [part.id] },
  words: `${part.name}: lifted, free`,
});

const restOfSet = ({ device, recent, off }: LiveReadout): Suggestion | undefined => {
  const [last] = recent;
  if (last?.outcome !== 'partial' || last.target === undefined || off.has(last.target)) return undefined;
  const fastener = device.fasteners.get(last.target);
  if (!fastener) return undefined;
  const rest = released(fastener, recent, last);
  return rest && { ...rest, why: 'the set was begun' };
};

const nextOnRoute = ({ device, off, recent }: LiveReadout, { route }: SuggestionHints): Suggestion | undefined => {
  const next = route.find((key) => !off.has(key) && (device.fasteners.has(key) || device.parts.has(key)));
  const fastener = device.fasteners.get(next ?? '');
  const part = device.parts.get(next ?? '');
  const act = fastener ? released(fastener, recent) : part && lifted(part);
  if (!act || failedBefore(recent, act.naming)) return undefined;
  return { ...act, why: 'next on the route that is known' };
};

/** What came off the predecessor after the last thing that has come off here; a part only once nothing recorded holds it. */
const nextAsBefore = (
  { device, off, recent }: LiveReadout,
  { before = [] }: SuggestionHints,
): Suggestion | undefined => {
  const last = recent.find(({ target = '' }) => off.has(target) && before.includes(target))?.target ?? '';
  const from = before.indexOf(last) + 1;
  for (const key of [...before.slice(from), ...before.slice(0, from)]) {
    const fastener = device.fasteners.get(key);
    const part = device.parts.get(key);
    if (off.has(key) || (part && !part.crossing.every((holder) => off.has(holder)))) continue;
    const act = fastener ? released(fastener, recent) : part && lifted(part);
    if (act && !failedBefore(recent, act.naming)) return { ...act, why: 'it came next on the predecessor' };
  }
  return undefined;
};

const openFastener = ({ device, off, recent }: LiveReadout, { goal }: SuggestionHints): Suggestion | undefined => {
  const carrierOfGoal = device.parts.get(goal ?? '');
  const open = [...device.fasteners.values()].filter(
    (fastener) =>
      !off.has(fastener.id) &&
      fastener.between !== undefined &&
      isSeenOpen(fastener, off) &&
      released(fastener, recent) !== undefined,
  );
  const near = new Set(recent[0]?.target === undefined ? [] : (device.fasteners.get(recent[0].target)?.between ?? []));
  const rank = (fastener: DeviceFastener): number =>
    (carrierOfGoal?.crossing.includes(fastener.id) ? 2 : 0) +
    (fastener.between?.some((end) => near.has(end) && end !== 'chassis') ? 1 : 0);
  const [best] = open.sort((a, b) => rank(b) - rank(a) || (a.name < b.name ? -1 : 1));
  const act = best && released(best, recent);
  if (!act) return undefined;
  return { ...act, why: rank(best) >= 2 ? 'it holds what you are going for' : 'its place is open' };
};

/** Was it seen that what is off is enough to reach it? Without a sight nobody knows, and nothing is proposed. */
const isSeenOpen = ({ record }: DeviceFastener | DevicePart, off: ReadonlySet<string>): boolean => {
  const behind = record?.behind;
  if (behind === undefined) return false;
  return behind.length === 0 || behind.some((set) => set.every((key) => off.has(key)));
};

/**
 * The release by its first recorded way, or by the one to be taken after a way that failed; else by what its kind is usually
 * done with. Undefined where all of that failed of late.
 */
const released = (
  fastener: DeviceFastener,
  recent: readonly Entry[],
  as?: Entry,
): Omit<Suggestion, 'why'> | undefined => {
  const ways = Object.entries(fastener.ways);
  const tried = ways.find(([way]) => failedBefore(recent, wayNaming(fastener, way)));
  const order = [...ways.filter(([way]) => way === tried?.[1].fallback), ...ways];
  const first = order.find(([way]) => !failedBefore(recent, wayNaming(fastener, way)));
  if (as === undefined && ways.length > 0 && !first) return undefined;
  const said = as ?? (first ? wayNaming(fastener, first[0]) : { do: usualAction(fastener.kind) });
  const { do: verb = usualAction(fastener.kind), tools } = said;
  const way = first && as === undefined ? { way: first[0] } : {};
  const naming = { do: verb, target: fastener.id, ...way, ...(tools === undefined ? {} : { tools: [...tools] }) };
  if (failedBefore(recent, naming)) return undefined;
  const all = fastener.count > 1 ? `, ${fastener.count} of ${fastener.count}` : '';
  return { naming, words: `${fastener.name}: ${PAST[verb] ?? verb.replaceAll('-', ' ')}${all}` };
};

/** What is done last in a way, with its tools: that lets go. */
const wayNaming = (fastener: DeviceFastener, way: string): Naming => {
  const action = fastener.ways[way]?.actions.findLast((one) => one.do !== 'clean');
  const verb = action?.do ?? usualAction(fastener.kind);
  return { do: verb, target: fastener.id, way, ...(action?.tools === undefined ? {} : { tools: [...action.tools] }) };
};

const usualAction = (kind: string): NonNullable<Entry['do']> => {
  const [action] = Object.entries(KINDS_OF_ACTION).find(([, kinds]) => kinds[0] === kind) ?? ['pry'];
  return action as NonNullable<Entry['do']>;
};

const PAST: Readonly<Record<string, string>> = {
  unscrew: 'unscrewed',
  pry: 'pried off',
  'release-clips': 'clips released',
  pull: 'pulled',
  peel: 'peeled',
  cut: 'cut',
  unplug: 'unplugged',
  desolder: 'desoldered',
};
