import type { Assessment } from '#record/schema/assessment';
import { INFORMATION_ITEMS, PRIORITY_ROLES } from '#schemes/eu-2023-1669/input';
import { smallRecord, TOOLS } from '../records/small-record.ts';

type Raw = Readonly<Record<string, unknown>>;
type Random = () => number;

/** One drawn product: the record with things open, and the same record with all of them answered as they truly are. */
export interface DrawnRecord {
  readonly open: Assessment;
  readonly complete: Assessment;
}

const ROLES = ['battery', 'display', 'back-cover', 'speaker', 'speaker'] as const;
const CLASSES = ['reusable', 'resupplied', 'removable', 'reusable', 'resupplied', 'removable', 'destroyed'] as const;
const MOVES: Readonly<Record<string, string>> = {
  driver: 'unscrew',
  pick: 'pry',
  spudger: 'pry',
  mat: 'peel',
  cloth: 'pull',
};

const pick = <T>(list: readonly T[], random: Random): T => list[Math.floor(random() * list.length)] as T;
const some = <T>(list: readonly T[], random: Random, chance: number): T[] => list.filter(() => random() < chance);

/** A subject with its true condition: alternatives of sets of things that came off before it in the log. */
interface Subject {
  readonly id: string;
  readonly behind: readonly (readonly string[])[];
}

const isOpenTo = ({ behind }: Subject, off: ReadonlySet<string>): boolean =>
  behind.length === 0 || behind.some((set) => set.every((id) => off.has(id)));

const trueCondition = (earlier: readonly string[], random: Random): readonly (readonly string[])[] => {
  if (earlier.length === 0 || random() < 0.4) return [];
  const alternatives = Array.from({ length: random() < 0.7 ? 1 : 2 }, () => some(earlier, random, 0.35));
  return alternatives.some((set) => set.length === 0) ? [] : alternatives;
};

/** What may be off together while the subject is not: a part only with all that held it released. */
const offTogether = (subject: string, drawn: Drawn, random: Random): readonly string[] => {
  const holding = (part: string): readonly string[] =>
    [...drawn.between].filter(([, ends]) => ends.includes(part)).map(([id]) => id);
  const possible = drawn.order.filter((id) => id !== subject && !holding(id).includes(subject));
  return [...new Set(some(possible, random, 0.5).flatMap((id) => [...holding(id), id]))];
};

/** Trials as they truly come out, on random sets of things off. */
const trialsOf = (subject: Subject, drawn: Drawn, random: Random): Raw =>
  Object.fromEntries(
    Array.from({ length: Math.floor(random() * 3) }, (_, index) => {
      const off = offTogether(subject.id, drawn, random);
      return [`t${index}`, { off, came: isOpenTo(subject, new Set(off)) ? 'yes' : 'no' }];
    }),
  );

interface Drawn {
  readonly parts: readonly string[];
  readonly fasteners: readonly string[];
  readonly between: ReadonlyMap<string, readonly [string, string]>;
  readonly order: readonly string[];
}

const structure = (random: Random): Drawn => {
  const parts = ROLES.slice(0, 2 + Math.floor(random() * 4)).map((_, index) => `p${index}`);
  const between = new Map<string, readonly [string, string]>();
  for (const [index, part] of parts.entries()) {
    const other = index > 0 && random() < 0.4 ? (parts[index - 1] as string) : 'chassis';
    between.set(`f${index}`, [part, other]);
    if (random() < 0.4) between.set(`g${index}`, [part, 'chassis']);
  }
  const order: string[] = [];
  for (const part of [...parts].sort(() => random() - 0.5)) {
    for (const [id, ends] of between) if (ends.includes(part) && !order.includes(id)) order.push(id);
    order.push(part);
  }
  return { parts, fasteners: [...between.keys()], between, order };
};

/** Draws a product whose parts all came off in one log, with conditions, classes, kits and pairings partly not recorded. */
export const drawRecord = (random: Random): DrawnRecord => {
  const drawn = structure(random);
  const tools = new Map(drawn.fasteners.map((id) => [id, pick(Object.keys(MOVES), random)]));
  const subjects = drawn.order.map(
    (id, index): Subject => ({
      id,
      behind: trueCondition(drawn.order.slice(0, index), random),
    }),
  );
  const leaves = new Map(drawn.fasteners.map((id) => [id, pick(CLASSES, random)]));
  const hidden = new Set<string>(some([...drawn.order, ...drawn.order.map((id) => `/${id}`)], random, 0.4));
  // What is not hidden was looked at; a class that destroys is only ever found by a later look.
  for (const id of drawn.fasteners) if (leaves.get(id) === 'destroyed') hidden.add(`/${id}`);
  const trials = new Map(subjects.map((subject) => [subject.id, trialsOf(subject, drawn, random)]));
  const remote = new Map(drawn.parts.map((id) => [id, random() < 0.3]));
  const kits = new Map(
    drawn.parts.map((id) => [
      id,
      { fasteners: some(drawn.fasteners, random, 0.5), tools: some([...tools.values()], random, 0.2) },
    ]),
  );
  const kitSeen = random() < 0.5;
  const matKnown = random() < 0.7;
  const matOnSale = random() < 0.8;
  const make = (all: boolean): Assessment => {
    const shows = (key: string): boolean => all || !hidden.has(key);
    const condition = ({ id, behind }: Subject): Raw => ({
      ...(shows(id) ? { behind } : {}),
      trials: trials.get(id),
    });
    const subject = (id: string): Subject => subjects.find((each) => each.id === id) as Subject;
    const absent = PRIORITY_ROLES.filter((role) => !drawn.parts.some((_, index) => ROLES[index] === role));
    return smallRecord({
      tools: {
        ...TOOLS,
        mat: { ...(TOOLS.mat as Raw), ...(all || matKnown ? { onSale: matOnSale } : { onSale: undefined }) },
      },
      parts: {
        ...Object.fromEntries(
          drawn.parts.map((id, index) => [
            id,
            {
              role: ROLES[index],
              ...condition(subject(id)),
              remoteNotification: false,
              ...(shows(`/${id}`) ? { remoteAuthorisation: remote.get(id) } : {}),
            },
          ]),
        ),
        ...Object.fromEntries(absent.map((role) => [`no-${role}`, { role, absent: true }])),
      },
      fasteners: Object.fromEntries(
        drawn.fasteners.map((id) => [
          id,
          {
            kind: 'other',
            between: drawn.between.get(id),
            ...condition(subject(id)),
            ways: {
              w: {
                actions: [{ do: MOVES[tools.get(id) as string], tools: [tools.get(id)] }],
                ...(shows(`/${id}`) ? { leaves: leaves.get(id) } : {}),
              },
            },
          },
        ]),
      ),
      spares: Object.fromEntries(
        drawn.parts.map((id) => [
          `kit-${id}`,
          {
            name: 'Kit',
            replaces: [id],
            contents: all || kitSeen ? { ...kits.get(id), standing: 'established' } : undefined,
          },
        ]),
      ),
      supply: SETTLED_SUPPLY,
      log: drawn.order.map((id) => {
        const tool = tools.get(id);
        return tool === undefined ? (['lift', id] as const) : ([MOVES[tool] as string, id, [tool]] as const);
      }),
    });
  };
  return { open: make(false), complete: make(true) };
};

const established = { standing: 'established' } as const;
/** Everything on offer to everybody, free, for seven years. */
export const SETTLED_SUPPLY: Raw = {
  parts: Object.fromEntries(
    PRIORITY_ROLES.map((role) => [
      role,
      { endUsers: { how: 'orderable', ...established }, professionals: { how: 'orderable', ...established } },
    ]),
  ),
  information: Object.fromEntries(
    INFORMATION_ITEMS.map((item) => [
      item,
      { endUsers: { access: 'free', ...established }, professionals: { access: 'free', ...established } },
    ]),
  ),
  software: {
    security: { years: 7, ...established },
    corrective: { years: 7, ...established },
    functionality: { years: 7, ...established },
  },
};
