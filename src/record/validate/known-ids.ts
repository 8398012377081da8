import { usualCheckIds } from '../device/function-checks.ts';
import { isPlainMap, itemsOf, type PlainMap, textOf, textsOf } from './plain.ts';

/** What sort of thing does an id name? A `thing` is a part or a fastener. */
export type Referent =
  | 'part'
  | 'part-or-chassis'
  | 'fastener'
  | 'thing'
  | 'tool'
  | 'specimen'
  | 'session'
  | 'face'
  | 'damage'
  | 'evidence'
  | 'spare'
  | 'check';

/** Which ids does a record know, by sort? */
export interface KnownIds {
  has(referent: Referent, id: string): boolean;
  /** All ids of a sort, for "did you mean". */
  names(referent: Referent): readonly string[];
  /** May a log name things of this sort that are described nowhere? */
  readonly opensByLog: Readonly<Record<'thing' | 'tool', boolean>>;
}

const collections: Readonly<Record<Referent, readonly string[]>> = {
  part: ['parts'],
  'part-or-chassis': ['parts'],
  fastener: ['fasteners'],
  thing: ['parts', 'fasteners'],
  tool: ['tools'],
  specimen: ['specimens'],
  session: ['sessions'],
  face: ['faces'],
  damage: ['damage'],
  evidence: ['evidence'],
  spare: ['spares'],
  check: [],
};

/**
 * Which ids are known? Those described, and the parts and fasteners that a log names, since they appear as they are logged:
 * freely where the record does not describe both parts and fasteners; otherwise a log may name only what is described.
 */
export const knownIds = (data: PlainMap): KnownIds => {
  const described = (name: string): boolean => isPlainMap(data[name]) && Object.keys(data[name]).length > 0;
  const opensByLog = { thing: !(described('parts') && described('fasteners')), tool: !described('tools') };
  const logged = opensByLog.thing ? loggedThings(data) : new Set<string>();
  const names = (referent: Referent): readonly string[] =>
    referent === 'check'
      ? checkNames(data)
      : collections[referent].flatMap((name) => (isPlainMap(data[name]) ? Object.keys(data[name]) : []));
  const sets = new Map<Referent, ReadonlySet<string>>();
  for (const referent of Object.keys(collections) as Referent[]) sets.set(referent, new Set(names(referent)));
  const mayBeLogged = new Set<Referent>(['part', 'part-or-chassis', 'fastener', 'thing']);
  const has = (referent: Referent, id: string): boolean => {
    if (sets.get(referent)?.has(id)) return true;
    if (referent === 'part-or-chassis' && id === 'chassis') return true;
    if (!mayBeLogged.has(referent)) return false;
    return logged.has(id) || (referent !== 'part' && isJoint(id, sets.get('part'), logged));
  };
  return { has, names, opensByLog };
};

/** The undescribed joint of a part that was pulled off by itself goes by the part's id and `.joint`. */
const isJoint = (id: string, parts: ReadonlySet<string> | undefined, logged: ReadonlySet<string>): boolean => {
  if (!id.endsWith('.joint')) return false;
  const part = id.slice(0, -'.joint'.length);
  return parts?.has(part) === true || logged.has(part);
};

const loggedThings = (data: PlainMap): Set<string> => {
  const things = new Set<string>();
  for (const [, session] of itemsOf(data.sessions))
    for (const [, entry] of itemsOf(session.entries)) {
      const target = textOf(entry.target);
      if (target !== undefined) things.add(target);
      for (const list of [entry.released, entry.free, entry.aside, entry.refitted])
        for (const id of textsOf(list)) things.add(id);
    }
  return things;
};

/** The usual functions to go through need no description; others stand in what is at hand for swaps. */
const checkNames = (data: PlainMap): readonly string[] => [
  ...usualCheckIds(),
  ...Object.keys(isPlainMap(data.swapBench) && isPlainMap(data.swapBench.checks) ? data.swapBench.checks : {}),
];
