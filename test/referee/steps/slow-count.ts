/**
 * The step count worked out from the definition in docs/method/steps.md, slowly and from whole sequences: a referee for the
 * counter in the product. It imports nothing from there.
 */

/** One act of bench work, as the definition sees it. */
export interface SlowAtom {
  readonly do: string;
  readonly tools: readonly string[];
  readonly milliseconds?: number;
  readonly place?: string;
  readonly afterRelease?: boolean;
  readonly releases?: { readonly fastener: string; readonly count: number; readonly asItems: boolean };
  readonly removes?: { readonly part: string; readonly becomes: 'aside' | 'free' };
}

/** The readings of the counting rules, each on or off. */
export interface SlowRules {
  readonly fastenersAsParts: boolean;
  readonly unpluggingBySelf: boolean;
  readonly cleaningAfterRelease: boolean;
  readonly reheatingOncePerPlace: boolean;
  readonly holdingAidsAreTools: boolean;
  readonly firstPickUpIsChange: boolean;
  readonly bareHandsIsChange: boolean;
}

const NEITHER_PART_NOR_TOOL = ['turn-over', 'cool', 'pair', 'calibrate', 'test', 'power-on', 'function-test'];

/** The acts that count, each with the tools that count; pieces that are parts become an act each. */
const countedActs = (atoms: readonly SlowAtom[], rules: SlowRules, aids: ReadonlySet<string>): SlowAtom[] =>
  atoms
    .filter((atom) => !NEITHER_PART_NOR_TOOL.includes(atom.do))
    .filter((atom) => atom.do !== 'clean' || !atom.afterRelease || rules.cleaningAfterRelease)
    .map((atom) => ({ ...atom, tools: atom.tools.filter((tool) => rules.holdingAidsAreTools || !aids.has(tool)) }))
    .flatMap((atom) =>
      rules.fastenersAsParts && atom.releases?.asItems
        ? Array.from({ length: atom.releases.count }, () => atom)
        : [atom],
    );

const isAlone = (atom: SlowAtom): boolean => atom.do === 'heat' || atom.do === 'clean';

const endsOperation = (atom: SlowAtom, rules: SlowRules): boolean =>
  atom.removes !== undefined ||
  isAlone(atom) ||
  (rules.unpluggingBySelf && atom.do === 'unplug') ||
  (rules.fastenersAsParts && atom.releases?.asItems === true);

/** Cuts the acts where a removal, a heating or a cleaning parts them, and where hands follow a tool if that is a change. */
const stretches = (acts: readonly SlowAtom[], rules: SlowRules): SlowAtom[][] => {
  const cut: SlowAtom[][] = [];
  for (const [index, act] of acts.entries()) {
    const before = acts[index - 1];
    const begins =
      before === undefined ||
      endsOperation(before, rules) ||
      isAlone(act) ||
      (rules.bareHandsIsChange && before.tools.length > 0 && act.tools.length === 0);
    if (begins) cut.push([act]);
    else cut[cut.length - 1]?.push(act);
  }
  return cut;
};

/** For each tool the number of unbroken runs, among the acts that use any tool, of acts that use it; at least one in all. */
const stepsOfStretch = (acts: readonly SlowAtom[]): number => {
  const withTool = acts.filter((act) => act.tools.length > 0);
  const tools = new Set(withTool.flatMap((act) => act.tools));
  let runs = 0;
  for (const tool of tools)
    for (const [index, act] of withTool.entries())
      if (act.tools.includes(tool) && !withTool[index - 1]?.tools.includes(tool)) runs++;
  return Math.max(1, runs);
};

/** Heatings of named places, gathered by place: a step for each tool used on the place, one where none was. */
const stepsOfPlaces = (heatings: readonly SlowAtom[]): number => {
  const places = new Set(heatings.map((act) => act.place));
  let steps = 0;
  for (const place of places) {
    const tools = new Set(heatings.filter((act) => act.place === place).flatMap((act) => act.tools));
    steps += Math.max(1, tools.size);
  }
  return steps;
};

/** How many steps does this sequence count, by definition? */
export const slowCount = (atoms: readonly SlowAtom[], rules: SlowRules, aids: ReadonlySet<string>): number => {
  const acts = countedActs(atoms, rules, aids);
  const all = stretches(acts, rules);
  const isPlaced = (stretch: SlowAtom[]): boolean =>
    rules.reheatingOncePerPlace && stretch[0]?.do === 'heat' && stretch[0].place !== undefined;
  const usual = all.filter((stretch) => !isPlaced(stretch)).reduce((sum, stretch) => sum + stepsOfStretch(stretch), 0);
  const pickUp = rules.firstPickUpIsChange && acts.some((act) => act.tools.length > 0) ? 1 : 0;
  return usual + stepsOfPlaces(all.filter(isPlaced).flat()) + pickUp;
};
