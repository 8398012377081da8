import type { PathSegment } from '../problem.ts';
import { unknownNameRemedy } from '../suggest.ts';
import type { Findings } from './findings.ts';
import type { KnownIds } from './known-ids.ts';
import type { LogIndex } from './log-index.ts';
import { isPlainMap, itemOf, itemsOf, numberOf, type PlainMap, textOf } from './plain.ts';

/** Everything the checks of one record share. */
export interface LinkContext {
  readonly data: PlainMap;
  readonly log: LogIndex;
  readonly findings: Findings;
  readonly known: KnownIds;
}

/** Do trials, damage and decisions point at entries and addresses that exist, and agree with them? */
export const checkLinks = (context: LinkContext): void => {
  const { data } = context;
  for (const collection of ['parts', 'fasteners'])
    for (const [id, item] of itemsOf(data[collection]))
      for (const [name, trial] of itemsOf(item.trials)) checkTrial([collection, id, 'trials', name], trial, context);
  for (const [id, damage] of itemsOf(data.damage)) checkDamage(['damage', id], damage, context);
  for (const [id, decision] of itemsOf(data.decisions)) checkDecision(['decisions', id], decision, context);
};

const checkTrial = (path: readonly PathSegment[], trial: PlainMap, context: LinkContext): void => {
  checkEntryOf([...path, 'entry'], { item: trial, name: 'entry' }, context);
  const session = itemOf(context.data.sessions, trial.session);
  const specimen = textOf(trial.specimen);
  if (session && specimen !== undefined && textOf(session.specimen) !== undefined && session.specimen !== specimen)
    context.findings.add([...path, 'specimen'], otherSpecimen(specimen, String(session.specimen)));
};

const otherSpecimen = (specimen: string, worked: string) => ({
  value: specimen,
  message: `the session worked on specimen "${worked}"`,
  remedy: 'Name the specimen of the session, or another session.',
});

/**
 * Finds the entry that an item names: in the session it names, or in the only session that has such an entry. What was
 * found in one session may have happened in another (`elsewhere`).
 */
const checkEntryOf = (
  path: readonly PathSegment[],
  { item, name, elsewhere = false }: { readonly item: PlainMap; readonly name: string; readonly elsewhere?: boolean },
  { data, log, findings }: LinkContext,
): PlainMap | undefined => {
  const entry = textOf(item[name]);
  if (entry === undefined) return undefined;
  const named = textOf(item.session);
  if (named !== undefined && !itemOf(data.sessions, named)) return undefined;
  const own = named !== undefined && log.has(named, entry);
  const sessions = own ? [named] : named === undefined || elsewhere ? log.sessionsWith(entry) : [];
  const [session, second] = sessions;
  if (session === undefined) {
    const where = named === undefined ? 'no session has' : `session "${named}" has no`;
    const remedy = unknownNameRemedy(entry, log.names(named), 'Name an entry that is logged.');
    findings.add(path, { value: entry, kind: 'unknown-reference', message: `${where} entry "${entry}"`, remedy });
  } else if (second !== undefined)
    findings.add(path, {
      value: entry,
      message: `several sessions have an entry "${entry}"`,
      remedy: 'Name the session as well.',
    });
  return session === undefined ? undefined : log.entry(session, entry);
};

const checkDamage = (path: readonly PathSegment[], damage: PlainMap, context: LinkContext): void => {
  const at = (name: string): number | undefined =>
    numberOf(checkEntryOf([...path, name], { item: damage, name, elsewhere: true }, context)?.at);
  const [after, before] = [at('after'), at('before')];
  at('found');
  if (after !== undefined && before !== undefined && after > before && textOf(damage.session) !== undefined)
    context.findings.add([...path, 'before'], {
      value: damage.before,
      kind: 'order',
      message: 'it was certainly there before it was certainly whole',
      remedy: 'Exchange "after" and "before", or name other entries.',
    });
};

/** An override names what it overrides by its address. */
const checkDecision = (path: readonly PathSegment[], decision: PlainMap, { data, findings }: LinkContext): void => {
  const address = textOf(decision.overrides);
  if (address === undefined) return;
  let place: unknown = data;
  let known: readonly string[] = [];
  let missing: string | undefined;
  for (const segment of address.split('/')) {
    known = isPlainMap(place) ? Object.keys(place) : [];
    missing = segment;
    if (!isPlainMap(place) || !Object.hasOwn(place, segment)) break;
    place = place[segment];
    missing = undefined;
  }
  if (missing === undefined || isDefaultIsolation(address, data)) return;
  findings.add([...path, 'overrides'], {
    value: address,
    kind: 'unknown-reference',
    message: `nothing stands at this address: there is no "${missing.slice(0, 80)}"`,
    remedy: unknownNameRemedy(missing, known, 'Write the id path, such as "fasteners/ear-flex/requires/isolation".'),
  });
};

/** Isolation is required by default, of fasteners and parts alike, without standing in the record. */
const isDefaultIsolation = (address: string, data: PlainMap): boolean => {
  const [collection = '', id, ...rest] = address.split('/');
  const known = collection === 'parts' || collection === 'fasteners';
  return known && itemOf(data[collection], id) !== undefined && rest.join('/') === 'requires/isolation';
};
