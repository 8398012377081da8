import type { Json, Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { anyRecordName, recordName } from '#schemes/eu-2023-1669/bases/record-names';
import { type OpenAnswer, type OpenVariable, writing } from './open-variable.ts';
import type { OpenFact } from './supply-variables.ts';

/** Most items of one kit whose every combination is an answer of its own. */
const MOST_COMBINED = 5;

/** One thing that may come with a spare part. */
interface KitItem {
  readonly kind: 'fasteners' | 'tools';
  readonly id: string;
}

/** One kit whose contents nobody saw: the spare it belongs to or the part it is for, and what is asked of it. */
interface UnseenKit {
  readonly place: readonly [string, string];
  readonly items: readonly KitItem[];
}

const KIT = /^(spares|parts)\/([^/]+)(\/spare)?\/contents\/(fasteners|tools)\/(.+)$/;

/**
 * Which kits are asked about, and for which items? One variable a kit, since one look settles all of it: whatever any basis asks
 * of it (`kitFacts`), and whatever a list that nobody checked says of it, so that no answer takes an item for seen that was not
 * asked about.
 */
export const kitVariables = (
  assessment: Assessment,
  facts: readonly OpenFact[],
  kitFacts: readonly OpenFact[],
): readonly OpenVariable[] => {
  const asked = new Set(facts.flatMap((fact) => kitPlace(fact)?.join('/') ?? []));
  const kits = new Map<string, UnseenKit>();
  for (const fact of [...kitFacts, ...facts]) {
    const place = kitPlace(fact);
    const item = kitItem(fact);
    const key = place?.join('/') ?? '';
    if (!place || !item || !asked.has(key)) continue;
    const items = kits.get(key)?.items ?? listedItems(assessment, place);
    kits.set(key, { place, items: items.some((known) => isSame(known, item)) ? items : [...items, item] });
  }
  return [...kits.values()].map((kit) =>
    kitVariable(assessment, {
      ...kit,
      items: [...kit.items].sort((one, other) => (keyOf(one) < keyOf(other) ? -1 : 1)),
    }),
  );
};

/** Is this open fact one about the contents of a kit? */
export const isKitFact = (fact: OpenFact): boolean => KIT.test(fact.address);

const kitPlace = ({ address }: OpenFact): readonly [string, string] | undefined => {
  const [, where, owner] = KIT.exec(address) ?? [];
  return where === undefined || owner === undefined ? undefined : [where, owner];
};

const kitItem = ({ address }: OpenFact): KitItem | undefined => {
  const [, , , , kind, id] = KIT.exec(address) ?? [];
  return id === undefined ? undefined : { kind: kind as KitItem['kind'], id };
};

const keyOf = ({ kind, id }: KitItem): string => `${kind}/${id}`;
const isSame = (one: KitItem, other: KitItem): boolean => keyOf(one) === keyOf(other);

const listedItems = (assessment: Assessment, [where, owner]: readonly [string, string]): readonly KitItem[] => {
  const { fasteners = [], tools = [] } = assessment.spares?.[spareOf(where, owner)]?.contents ?? {};
  return [
    ...fasteners.map((id): KitItem => ({ kind: 'fasteners', id })),
    ...tools.map((id): KitItem => ({ kind: 'tools', id })),
  ];
};

const spareOf = (where: string, owner: string): string => (where === 'spares' ? owner : `spare-for-${owner}`);

const kitVariable = (assessment: Assessment, { place, items }: UnseenKit): OpenVariable => {
  const [where, owner] = place;
  const ofSpare = where === 'spares';
  const listed = items.map(({ id }) => anyRecordName(assessment, id));
  const name = ofSpare ? (assessment.spares?.[owner]?.name ?? owner) : recordName(assessment, 'parts', owner);
  return {
    id: ofSpare ? `spares/${owner}/contents` : `parts/${owner}/spare`,
    kind: 'fact',
    touches: 'judging',
    asks: `which of ${listed.join(', ')} come with ${ofSpare ? name : `a spare ${name}`} at no extra cost`,
    remedy: 'order the spare part and look into the kit',
    answers: combinations(items).map((there) => kitAnswer(assessment, { place, items }, there)),
    furthest: { low: answerId([]), high: answerId(items) },
    ...(items.length > MOST_COMBINED ? { covers: false } : {}),
  };
};

/** Every combination while there are few; else all, none, each alone and all but each: an end lies at one of these or is a bound. */
const combinations = <T>(items: readonly T[]): readonly (readonly T[])[] => {
  if (items.length <= MOST_COMBINED)
    return Array.from({ length: 2 ** items.length }, (_, mask) => items.filter((_item, bit) => (mask >> bit) & 1));
  return [[], items, ...items.map((item) => [item]), ...items.map((item) => items.filter((other) => other !== item))];
};

const kitAnswer = (assessment: Assessment, { place, items }: UnseenKit, there: UnseenKit['items']): OpenAnswer => {
  const [where, owner] = place;
  const asked = new Set(items.map(keyOf));
  const spare = spareOf(where, owner);
  const listed = assessment.spares?.[spare]?.contents;
  const of = (kind: 'fasteners' | 'tools'): readonly string[] => [
    ...(listed?.[kind] ?? []).filter((id) => !asked.has(keyOf({ kind, id }))),
    ...there.filter((item) => item.kind === kind).map(({ id }) => id),
  ];
  const contents = { fasteners: of('fasteners'), tools: of('tools'), standing: 'established' };
  const value: Json = where === 'spares' ? contents : { name: owner, replaces: [owner], contents };
  const keys = where === 'spares' ? ['spares', spare, 'contents'] : ['spares', spare];
  const names = there.map(({ id }) => anyRecordName(assessment, id));
  return {
    id: answerId(there),
    says: names.length === 0 ? 'none of them' : names.join(' and '),
    patch: [...describingTools(assessment, there), ...writing(assessment, keys, value)],
  };
};

/** A kit can hold only what is described; where no tool is yet, one brings the others of the logs along (see `writing`). */
const describingTools = (assessment: Assessment, there: UnseenKit['items']): Patch => {
  const tool = there.find(({ kind, id }) => kind === 'tools' && assessment.tools?.[id] === undefined)?.id;
  return tool === undefined ? [] : writing(assessment, ['tools', tool, 'name'], recordName(assessment, 'tools', tool));
};

const answerId = (there: UnseenKit['items']): string =>
  there.length === 0 ? 'nothing' : there.map(({ id }) => id).join('+');
