import type { RouteAtom } from '../problem/route-problem.ts';
import type { CountingRules } from './counting-rules.ts';

/**
 * Where does the count stand inside a sequence? Tools and places are bit masks given by a {@link CounterVocabulary};
 * two equal states count every continuation alike, so a search may merge them.
 */
export interface CounterState {
  /** Tools whose use is under way in the open step. */
  readonly running: number;
  /** 0: no step open; 1: open by bare hands only; 2: open with a tool. */
  readonly open: 0 | 1 | 2;
  /** 1 once any tool was taken up (only kept where the first pick-up counts). */
  readonly everHeld: 0 | 1;
  /** Tool uses already counted, place by place (only kept where a place counts once). */
  readonly heated: number;
}

/** Why did a step end? With a part off, with another tool, by itself (heating, cleaning), or not yet. */
export type StepEnd = 'removal' | 'tool-change' | 'heating' | 'cleaning' | 'unplugged' | 'open';

/** What is one counted step? The tool uses it holds (two tools at once are two steps), and why it ended. */
export interface CountedStep {
  /** Number of steps this operation counts as. */
  readonly count: number;
  readonly ended: StepEnd;
  /** Indices of the atoms in it. */
  readonly atoms: readonly number[];
  readonly tools: readonly string[];
}

/** Which bits stand for one heating of a place that counts once? */
export interface HeatBits {
  /** A bit for each tool that counts, or the place's bare-hands bit. */
  readonly uses: number;
  /** All bits of the place. */
  readonly place: number;
  /** The place's bare-hands bit. */
  readonly bare: number;
}

/** Which bit stands for which tool and place? Holding aids have none unless the rules make them tools. */
export interface CounterVocabulary {
  readonly toolMask: (tools: readonly string[]) => number;
  /** Undefined where the atom heats no named place, or every heating counts. */
  readonly heatBits: (atom: RouteAtom) => HeatBits | undefined;
}

/** The most tools, or heated places with their tools, that one count can tell apart. */
export const MAX_COUNTER_NAMES = 30;

const allot = (map: Map<string, number>, name: string, what: string): void => {
  if (map.has(name)) return;
  if (map.size >= MAX_COUNTER_NAMES) throw new RangeError(`more than ${MAX_COUNTER_NAMES} ${what} in one count`);
  map.set(name, 1 << map.size);
};

/** What does one heating do to its place? A key for each tool that counts, or one for bare hands. */
const heatKeys = (atom: RouteAtom, tools: ReadonlyMap<string, number>): string[] => {
  const counted = atom.tools.filter((tool) => tools.has(tool));
  return (counted.length === 0 ? [''] : counted).map((tool) => JSON.stringify([atom.place, tool]));
};

/** The names of the atoms met so far, as bits. Bits once given stay, so that a count can go on as a sequence grows. */
export class GrowingVocabulary implements CounterVocabulary {
  private readonly tools = new Map<string, number>();
  private readonly uses = new Map<string, number>();
  private readonly places = new Map<string, number>();
  private readonly holdingAids: ReadonlySet<string>;
  private readonly rules: CountingRules;

  constructor(holdingAids: ReadonlySet<string>, rules: CountingRules) {
    this.holdingAids = holdingAids;
    this.rules = rules;
  }

  /** Gives an atom's names their bits. Throws a RangeError past 30. */
  learn(atom: RouteAtom): void {
    for (const tool of atom.tools)
      if (this.rules.holdingAidsAreTools || !this.holdingAids.has(tool)) allot(this.tools, tool, 'tools');
    if (!this.isPlaced(atom)) return;
    for (const key of heatKeys(atom, this.tools)) {
      allot(this.uses, key, 'heated places with their tools');
      const place = atom.place ?? '';
      this.places.set(place, (this.places.get(place) ?? 0) | (this.uses.get(key) ?? 0));
    }
  }

  readonly toolMask = (tools: readonly string[]): number => mask(this.tools, tools);

  readonly heatBits = (atom: RouteAtom): HeatBits | undefined =>
    this.isPlaced(atom)
      ? {
          uses: mask(this.uses, heatKeys(atom, this.tools)),
          place: this.places.get(atom.place ?? '') ?? 0,
          bare: this.uses.get(JSON.stringify([atom.place, ''])) ?? 0,
        }
      : undefined;

  private isPlaced(atom: RouteAtom): boolean {
    return this.rules.reheatingOncePerPlace && atom.do === 'heat' && atom.place !== undefined;
  }
}

const mask = (map: ReadonlyMap<string, number>, names: readonly string[]): number =>
  names.reduce((sum, name) => sum | (map.get(name) ?? 0), 0);

/** What does the counter need to know of names? Bits for the tools and heated places of the given atoms. Throws a RangeError past 30. */
export const counterVocabulary = (
  atoms: Iterable<RouteAtom>,
  holdingAids: ReadonlySet<string>,
  rules: CountingRules,
): CounterVocabulary => {
  const vocabulary = new GrowingVocabulary(holdingAids, rules);
  for (const atom of atoms) vocabulary.learn(atom);
  return vocabulary;
};

/** Where does every count begin? Nothing open, nothing held. */
export const COUNT_START: CounterState = { running: 0, open: 0, everHeld: 0, heated: 0 };

/** Actions that change neither a part nor a tool, and so never count. */
const UNCOUNTED = new Set(['turn-over', 'cool', 'pair', 'calibrate', 'test', 'power-on', 'function-test']);

const bits = (mask: number): number => {
  let left = mask;
  let count = 0;
  while (left) {
    left &= left - 1;
    count++;
  }
  return count;
};

/** Does the counter pass over this atom? Turning over, pairing and testing always; cleaning after release under the default reading. */
export const isUncounted = (atom: RouteAtom, rules: CountingRules): boolean =>
  UNCOUNTED.has(atom.do) || (atom.do === 'clean' && atom.afterRelease === true && !rules.cleaningAfterRelease);

/** What ends right after this atom? */
const endAfter = (atom: RouteAtom, rules: CountingRules): StepEnd => {
  if (atom.removes) return 'removal';
  if (atom.do === 'heat') return 'heating';
  if (atom.do === 'clean') return 'cleaning';
  if (rules.unpluggingBySelf && atom.do === 'unplug') return 'unplugged';
  if (rules.fastenersAsParts && atom.releases?.asItems) return 'removal';
  return 'open';
};

const standsAlone = (atom: RouteAtom): boolean => atom.do === 'heat' || atom.do === 'clean';

/**
 * How many steps does one more atom add, and where does the count stand then?
 *
 * Steps as Regulation (EU) 2023/1669 Annex I (20) and Annex IV point 5 have them: a step ends with a removal (aside counts)
 * or a change of tool; tools used together are a step each; heating and cleaning are steps of their own; bare hands never
 * end a step. A step is counted when it opens, so that the count of a prefix is already whole. Putting one of two tools down
 * while the other works on begins no new use and adds nothing; see docs/method/steps.md.
 */
export const advanceCount = (
  state: CounterState,
  atom: RouteAtom,
  { rules, vocabulary }: { readonly rules: CountingRules; readonly vocabulary: CounterVocabulary },
): {
  readonly state: CounterState;
  readonly added: number;
  readonly closedBefore: StepEnd | undefined;
  readonly ended: StepEnd;
} => {
  if (isUncounted(atom, rules)) return { state, added: 0, closedBefore: undefined, ended: 'open' };
  const tools = vocabulary.toolMask(atom.tools);
  const heat = vocabulary.heatBits(atom);
  if (heat) return heatPlace(state, heat, rules.firstPickUpIsChange && tools !== 0);
  const before = standsAlone(atom) ? { ...state, running: 0, open: 0 as const } : state;
  const entered = enter(before, tools, rules);
  const ended = endAfter(atom, rules);
  const pieces = rules.fastenersAsParts && atom.releases?.asItems ? atom.releases.count : 1;
  const added = entered.added + (pieces - 1) * Math.max(1, bits(tools));
  const everHeld: 0 | 1 = rules.firstPickUpIsChange && (state.everHeld || tools !== 0) ? 1 : 0;
  const heated = state.heated;
  const after: CounterState =
    ended === 'open'
      ? { running: entered.running, open: entered.open, everHeld, heated }
      : { running: 0, open: 0, everHeld, heated };
  const closedBefore =
    state.open === 0 ? undefined : standsAlone(atom) ? 'tool-change' : entered.changed ? 'tool-change' : undefined;
  return { state: after, added, closedBefore, ended };
};

/**
 * What does heating add where a place counts once? Each tool used in heating a place counts once for that place, and a place
 * heated without any tool counts one; so a second heating of a place adds nothing unless it takes a further tool. (Were only
 * the first heating counted, with its tools, leaving it out could raise the count.) It ends the open step in any case.
 */
const heatPlace = (state: CounterState, heat: HeatBits, takesTool: boolean): ReturnType<typeof advanceCount> => {
  const count = (uses: number): number => (uses === 0 ? 0 : Math.max(1, bits(uses & ~heat.bare)));
  const before = state.heated & heat.place;
  const firstEver = takesTool && state.everHeld === 0 ? 1 : 0;
  return {
    state: {
      running: 0,
      open: 0,
      everHeld: takesTool ? 1 : state.everHeld,
      heated: state.heated | heat.uses,
    },
    added: count(before | heat.uses) - count(before) + firstEver,
    closedBefore: state.open === 0 ? undefined : 'tool-change',
    ended: 'heating',
  };
};

/** How does one atom with these tools enter the open step, or open one? */
const enter = (
  state: CounterState,
  tools: number,
  rules: CountingRules,
): { running: number; open: 1 | 2; added: number; changed: boolean } => {
  if (tools === 0) {
    if (state.open === 0) return { running: 0, open: 1, added: 1, changed: false };
    if (state.open === 2 && rules.bareHandsIsChange) return { running: 0, open: 1, added: 1, changed: true };
    return { running: state.running, open: state.open, added: 0, changed: false };
  }
  const begun = bits(tools & ~state.running);
  const firstEver = rules.firstPickUpIsChange && state.everHeld === 0;
  const merges = state.open === 1 && !firstEver ? 1 : 0;
  const alone = firstEver && state.open === 0 ? 1 : 0;
  const changed = state.open === 2 ? begun > 0 : state.open === 1 && firstEver;
  return { running: tools, open: 2, added: begun - merges + alone, changed };
};

/**
 * How many steps does a whole sequence count, and which are they? The steps in order with the reason each ended; the counts
 * sum to the total. A first pick-up that counts by itself is added to the step it opens.
 */
export const countSteps = (
  atoms: readonly RouteAtom[],
  rules: CountingRules,
  holdingAids: ReadonlySet<string>,
): { readonly total: number; readonly steps: readonly CountedStep[] } => {
  const vocabulary = counterVocabulary(atoms, holdingAids, rules);
  const steps: { count: number; ended: StepEnd; atoms: number[]; tools: string[] }[] = [];
  let state = COUNT_START;
  let current: (typeof steps)[number] | undefined;
  for (const [index, atom] of atoms.entries()) {
    const next = advanceCount(state, atom, { rules, vocabulary });
    if (next.closedBefore && current) {
      current.ended = next.closedBefore;
      current = undefined;
    }
    if (!current && next.added === 0 && next.state === state) continue;
    if (!current) {
      current = { count: 0, ended: 'open', atoms: [], tools: [] };
      steps.push(current);
    }
    current.count += next.added;
    current.atoms.push(index);
    for (const tool of atom.tools) if (!current.tools.includes(tool)) current.tools.push(tool);
    if (next.ended !== 'open') {
      current.ended = next.ended;
      current = undefined;
    }
    state = next.state;
  }
  return { total: steps.reduce((sum, step) => sum + step.count, 0), steps };
};
