import type { Device } from '../device/device.ts';
import type { Assessment, Session } from '../schema/assessment.ts';
import { addressOf, benchRuns, type LoggedAction, runActions } from './bench-log.ts';

/** What does a damage say of one entry that may have done it? A slip of the hand says nothing of the route. */
export type DamageVerdict = 'whole' | 'undecided' | 'damaging';

/** A damage that an entry did, or may have done. */
export interface EntryDamage {
  readonly damage: string;
  readonly verdict: DamageVerdict;
}

type Damage = NonNullable<Assessment['damage']>[string];
/** By the address of the entry. */
type DamageIndex = ReadonlyMap<string, readonly EntryDamage[]>;

/**
 * Which damage did each entry do, or may it have done? A damage that an entry of work names belongs to that entry. Any
 * other belongs to what was worked on while it must have happened: after the entry that saw it whole, up to the one that
 * saw it there; where only its finding is known, to all work on its subject up to then, on everything where no subject is
 * named. If that is work on one thing the ruling holds for it; if on several, nobody can say which did it, and each is
 * undecided. Once per assessment, which must not change afterwards. Cost: damages times entries.
 */
export const damageIndex = (assessment: Assessment, device: Device): DamageIndex => {
  const known = indexes.get(assessment);
  if (known) return known;
  const index = findIndex(assessment, device);
  indexes.set(assessment, index);
  return index;
};

const indexes = new WeakMap<Assessment, DamageIndex>();

/** What did the damage of one logged action do to what came off by it? The worst of its damages. */
export const damageVerdictAt = (index: DamageIndex, address: string): DamageVerdict => {
  const verdicts = (index.get(address) ?? []).map(({ verdict }) => verdict);
  if (verdicts.includes('damaging')) return 'damaging';
  return verdicts.includes('undecided') ? 'undecided' : 'whole';
};

const findIndex = (assessment: Assessment, device: Device): DamageIndex => {
  const damages = Object.entries(assessment.damage ?? {});
  const index = new Map<string, EntryDamage[]>();
  if (damages.length === 0) return index;
  const runs = benchRuns(assessment).map((run) => runActions({ assessment, device }, run));
  for (const [damage, record] of damages) {
    const named = runs.map((actions) => actions.filter((action) => names(action, damage)));
    const culprits = named.some((actions) => actions.length > 0)
      ? named
      : runs.map((actions) => suspects(actions, { record, assessment, device }));
    for (const actions of culprits)
      for (const action of actions) note(index, addressOf(action), { damage, verdict: verdictOn(record, actions) });
  }
  return index;
};

const note = (index: Map<string, EntryDamage[]>, address: string, found: EntryDamage): void => {
  const known = index.get(address) ?? [];
  const isKnown = known.some(({ damage, verdict }) => damage === found.damage && verdict === found.verdict);
  if (!isKnown) index.set(address, [...known, found]);
};

/** Actions that only find out: a damage that such an entry names came before it. */
const LOOKS: ReadonlySet<string> = new Set(['test', 'function-test', 'power-on', 'calibrate', 'pair']);

const isWork = ({ record, effects }: LoggedAction): boolean =>
  changed(effects).length > 0 || (record.target !== undefined && !LOOKS.has(record.do ?? ''));

const names = (action: LoggedAction, damage: string): boolean =>
  action.record.damage?.includes(damage) === true && isWork(action);

const verdictOn = ({ ruling = 'undecided' }: Damage, culprits: readonly LoggedAction[]): DamageVerdict => {
  if (ruling === 'slip-of-hand') return 'whole';
  const worked = new Set(culprits.map(({ record, entry }) => record.target ?? entry));
  return ruling === 'route-damages-product' && worked.size === 1 ? 'damaging' : 'undecided';
};

interface DamageSource {
  readonly record: Damage;
  readonly assessment: Assessment;
  readonly device: Device;
}

/** What was worked on in a run while the damage must have happened? Nothing where its session is no part of the run. */
const suspects = (
  actions: readonly LoggedAction[],
  { record, assessment, device }: DamageSource,
): readonly LoggedAction[] => {
  if (!actions.some(({ session }) => session === record.session)) return [];
  const place = (entry: string | undefined): number | undefined => placeOf(entry, actions, { record, assessment });
  const after = place(record.after) ?? 0;
  const before = place(record.before) ?? place(record.found) ?? endOf(actions, record.session);
  const worked = actions.slice(after, before).filter(isWork);
  if (record.after !== undefined || record.subject === undefined) return worked;
  const { subject } = record;
  const onSubject = worked.filter((action) => touches(action, subject, device));
  return onSubject.length > 0 ? onSubject : worked;
};

const changed = ({ released, freed, aside, refitted }: LoggedAction['effects']): readonly string[] => [
  ...released,
  ...freed,
  ...aside,
  ...refitted,
];

const touches = ({ record, effects }: LoggedAction, subject: string, device: Device): boolean =>
  record.target === subject ||
  changed(effects).includes(subject) ||
  device.fasteners.get(record.target ?? '')?.record?.between?.some((part) => part === subject) === true;

const endOf = (actions: readonly LoggedAction[], session: string | undefined): number =>
  actions.findLastIndex((action) => action.session === session) + 1;

/** How many actions of the run were done up to and with an entry? The entry may be corrected or withdrawn, or lie in another session. */
const placeOf = (
  entry: string | undefined,
  actions: readonly LoggedAction[],
  { record, assessment }: Pick<DamageSource, 'record' | 'assessment'>,
): number | undefined => {
  if (entry === undefined) return undefined;
  const inRun = [record.session ?? '', ...new Set(actions.map(({ session }) => session))];
  const session = inRun.find((name) => assessment.sessions?.[name]?.entries[entry] !== undefined);
  const at = session === undefined ? undefined : firstTime(assessment.sessions?.[session], entry);
  if (session === undefined || at === undefined) return undefined;
  const last = actions.findLastIndex((action) => action.session === session && action.record.at <= at);
  return last >= 0
    ? last + 1
    : Math.max(
        0,
        actions.findIndex((action) => action.session === session),
      );
};

const firstTime = (session: Session | undefined, entry: string): number | undefined => {
  const seen = new Set<string>();
  let first = session?.entries[entry];
  for (let id = first?.corrects; id !== undefined && !seen.has(id); id = first?.corrects) {
    seen.add(id);
    const earlier = session?.entries[id];
    if (!earlier) break;
    first = earlier;
  }
  return first?.at;
};
