import { addressOf } from '#record/log/bench-log';
import type { RouteSource } from '#routes/problem/from-record';
import type { Reach } from '#routes/problem/route-problem';
import type { SequenceItem } from '#routes/sequence/bench-sequence';
import { NeededActions } from '#routes/sequence/needed-actions';
import { referenceSpecimen } from '#routes/sequence/observed';
import { leavesOf, observedItems } from '#routes/sequence/observed-items';
import { type ObservedRun, observedRun } from '#routes/sequence/observed-run';

/** One set of actions that a part may have needed, as items. */
export interface ObservedChoice {
  readonly kept: ReadonlySet<number>;
  readonly items: readonly SequenceItem[];
  /** The same with the failed attempts among them, in their place. */
  readonly withFailures: readonly SequenceItem[];
  readonly sessions: readonly string[];
}

/** What of one run a part may have needed, by what is shown and by what nothing excludes. */
export interface ObservedChoices {
  readonly run: ObservedRun;
  readonly shown: readonly ObservedChoice[];
  readonly possible: readonly ObservedChoice[];
  readonly whole: ObservedChoice;
  /** True where both ends are the same sets: no open trial bears on what was needed. */
  readonly isSettled: boolean;
  /** Addresses of marks before the part came free that have no name yet. */
  readonly unnamed: readonly string[];
}

/** What was worked out for the parts of one record, under the log it was worked out from. */
interface KnownOfLog<Found> {
  readonly sessions: RouteSource['assessment']['sessions'];
  readonly specimen: string | undefined;
  readonly byPart: Map<string, Found | undefined>;
}

/** By device, since an item says in which class a fastener was left; and by trials, which the class of a way does not change. */
const knownByDevice = new WeakMap<object, KnownOfLog<ObservedChoices>>();
const knownByTrials = new WeakMap<object, KnownOfLog<ObservedChoices>>();

/**
 * Which sets of the reference specimen's actions may a part have needed? Worked out once a device, log and part, since no reading
 * changes them, nor anything else of the record. Undefined where the part never came free on the reference specimen in a run that
 * began complete.
 */
export const observedChoices = (source: RouteSource, part: string): ObservedChoices | undefined =>
  kept(ofLog(knownByDevice, source.device, source), part, () => {
    const known = kept(ofLog(knownByTrials, source.trials, source), part, () => choicesOf(source, part));
    return known && asLeftIn(source, known);
  });

const ofLog = <Found>(
  known: WeakMap<object, KnownOfLog<Found>>,
  key: object,
  source: RouteSource,
): KnownOfLog<Found>['byPart'] => {
  const { sessions } = source.assessment;
  const specimen = referenceSpecimen(source);
  const before = known.get(key);
  if (before !== undefined && before.sessions === sessions && before.specimen === specimen) return before.byPart;
  const byPart = new Map<string, Found | undefined>();
  known.set(key, { sessions, specimen, byPart });
  return byPart;
};

const kept = <Found>(
  byPart: Map<string, Found | undefined>,
  part: string,
  find: () => Found | undefined,
): Found | undefined => {
  if (!byPart.has(part)) byPart.set(part, find());
  return byPart.get(part);
};

const choicesOf = (source: RouteSource, part: string): ObservedChoices | undefined => {
  const run = observedRun(source, part, referenceSpecimen(source));
  if (!run) return undefined;
  const sets = (reach: Reach) => new NeededActions(source, run, reach).choices();
  const [shown, possible] = [sets('pessimistic'), sets('optimistic')];
  const choice = (sets: ReadonlySet<number>): ObservedChoice => choiceOf(source, run, sets);
  const whole = new Set([...run.actions.keys()].slice(0, run.last + 1));
  const same = JSON.stringify(shown.sets.map(sorted)) === JSON.stringify(possible.sets.map(sorted));
  return {
    run,
    shown: shown.sets.map(choice),
    possible: possible.sets.map(choice),
    whole: choice(whole),
    isSettled: same && !shown.capped && !possible.capped,
    unnamed: observedItems(source, run, whole).unnamed,
  };
};

/** The same choices with every fastener left in the class that the record now gives its way. */
const asLeftIn = (source: RouteSource, choices: ObservedChoices): ObservedChoices => {
  const changed = changedClasses(source, choices);
  if (changed.size === 0) return choices;
  const itemLeft = (item: SequenceItem): SequenceItem => {
    const released = changed.get(item.address);
    return released ? { ...item, released } : item;
  };
  const choiceLeft = ({ items, withFailures, ...choice }: ObservedChoice): ObservedChoice => {
    const left = new Map(withFailures.map((item) => [item, itemLeft(item)]));
    return { ...choice, items: items.map((item) => left.get(item) ?? item), withFailures: [...left.values()] };
  };
  const [shown, possible] = [choices.shown.map(choiceLeft), choices.possible.map(choiceLeft)];
  return { ...choices, shown, possible, whole: choiceLeft(choices.whole) };
};

/** What do actions of the whole run release in another class than their items say? By address. */
const changedClasses = (
  source: RouteSource,
  { run, whole }: ObservedChoices,
): ReadonlyMap<string, SequenceItem['released']> => {
  const indices = new Map(run.actions.map((action, index) => [addressOf(action), index]));
  return new Map(
    whole.withFailures.flatMap(({ address, released: before }) => {
      const index = indices.get(address) ?? -1;
      const now = before.map(({ fastener }) => ({ fastener, leaves: leavesOf(source, run, { index, fastener }) }));
      return now.every(({ leaves }, at) => leaves === before[at]?.leaves) ? [] : [[address, now] as const];
    }),
  );
};

const sorted = (set: ReadonlySet<number>): readonly number[] => [...set].sort((a, b) => a - b);

/** What do some actions of a run look like as items, without and with the failed attempts on them? */
export const choiceOf = (source: RouteSource, run: ObservedRun, kept: ReadonlySet<number>): ObservedChoice => {
  const { items, failed, sessions } = observedItems(source, run, kept);
  const withFailures = [...items.keys(), items.length].flatMap((index) => [
    ...failed.filter(({ before }) => before === index).map(({ item }) => item),
    ...items.slice(index, index + 1),
  ]);
  return { kept, items, withFailures, sessions };
};
