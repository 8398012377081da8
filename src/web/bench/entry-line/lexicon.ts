import type { Entry } from '#record/schema/assessment';

type Action = NonNullable<Entry['do']>;

/** Which words of the bench mean which action? Trade shorthand; common practice, no source. */
export const ACTION_WORDS: Readonly<Record<string, Action>> = {
  unscrew: 'unscrew',
  screw: 'unscrew',
  screws: 'unscrew',
  undo: 'unscrew',
  bolt: 'unscrew',
  pry: 'pry',
  prise: 'pry',
  lever: 'pry',
  clip: 'release-clips',
  clips: 'release-clips',
  unclip: 'release-clips',
  heat: 'heat',
  warm: 'heat',
  cool: 'cool',
  freeze: 'cool',
  dissolve: 'dissolve',
  solvent: 'dissolve',
  ipa: 'dissolve',
  isopropyl: 'dissolve',
  soak: 'dissolve',
  pull: 'pull',
  tug: 'pull',
  peel: 'peel',
  cut: 'cut',
  slice: 'cut',
  unplug: 'unplug',
  disconnect: 'unplug',
  desolder: 'desolder',
  lift: 'lift',
  remove: 'lift',
  out: 'lift',
  fold: 'fold-aside',
  hinge: 'fold-aside',
  turn: 'turn-over',
  flip: 'turn-over',
  clean: 'clean',
  wipe: 'clean',
  scrape: 'clean',
  discharge: 'discharge',
  pair: 'pair',
  calibrate: 'calibrate',
  test: 'test',
  power: 'power-on',
  function: 'function-test',
  fit: 'fit',
  seat: 'seat',
  plug: 'plug',
  fasten: 'fasten',
  bond: 'bond',
  glue: 'bond',
  press: 'press',
  cure: 'cure',
  close: 'close',
};

/** Second words that belong to an action's first. */
export const SECOND_WORDS: Readonly<Record<string, readonly string[]>> = {
  'turn-over': ['over'],
  'fold-aside': ['aside', 'away'],
  'release-clips': ['clips'],
  heat: ['up'],
  'power-on': ['on', 'up'],
  'function-test': ['test'],
};

/** Actions on the product as a whole: words that name nothing known say how, and are no new thing. */
export const WHOLE_ACTIONS: ReadonlySet<string> = new Set([
  'turn-over',
  'test',
  'function-test',
  'power-on',
  'calibrate',
  'pair',
  'cure',
]);

/** What a solvent is called where the action is said besides: kept as a note, since the record has no place for it. */
export const AGENT_WORDS: ReadonlySet<string> = new Set(['ipa', 'isopropyl', 'solvent', 'alcohol', 'acetone']);

/** Words that say how something was done and name nothing. */
export const MANNER_WORDS: ReadonlySet<string> = new Set(['slowly', 'gently', 'carefully', 'again', 'quickly', 'hard']);

/** Words that say how it ended. */
export const ENDED_WORDS: Readonly<Record<string, 'failed' | 'partial'>> = {
  failed: 'failed',
  partial: 'partial',
  partly: 'partial',
};

/** Words that say why it ended so; alone they say that it failed. Longer phrases stand before the words in them. */
export const REASON_PHRASES: readonly (readonly [string, NonNullable<Entry['because']>])[] = [
  ['would not let go', 'would-not-let-go'],
  ['did not let go', 'would-not-let-go'],
  ['held fast', 'would-not-let-go'],
  ['wrong tool', 'wrong-tool'],
  ['wrong bit', 'wrong-tool'],
  ['in the way', 'blocked'],
  ['called away', 'interrupted'],
  ['tore', 'tore'],
  ['torn', 'tore'],
  ['ripped', 'tore'],
  ['stripped', 'stripped'],
  ['rounded', 'stripped'],
  ['slipped', 'slipped'],
  ['blocked', 'blocked'],
  ['stuck', 'would-not-let-go'],
  ['interrupted', 'interrupted'],
];

/** Words that say where on the product. */
export const PLACE_WORDS: ReadonlySet<string> = new Set([
  'front',
  'rear',
  'back',
  'left',
  'right',
  'top',
  'bottom',
  'upper',
  'lower',
  'edge',
  'corner',
  'side',
]);

/** Words that join and mean nothing here. */
export const FILL_WORDS: ReadonlySet<string> = new Set(['the', 'of', 'at', 'on', 'from', 'a', 'an', 'to', 'x', 'and']);

/** Which kinds of fastener does an action let go? Others are thought of last. */
export const KINDS_OF_ACTION: Readonly<Record<string, readonly string[]>> = {
  unscrew: ['screw', 'nut', 'pin'],
  unplug: ['connector'],
  desolder: ['solder'],
  'release-clips': ['clip', 'hook'],
  peel: ['tape', 'gasket', 'thermal-pad', 'adhesive'],
  pull: ['stretch-release-strip', 'press-fit', 'magnet'],
  pry: ['adhesive', 'clip', 'hook', 'press-fit'],
  heat: ['adhesive', 'stretch-release-strip', 'tape'],
  dissolve: ['adhesive', 'stretch-release-strip', 'tape'],
  cut: ['adhesive', 'tape'],
};

/** Which places exclude which in a name? The upper tab is not the lower one. */
export const OPPOSITE_PLACES: Readonly<Record<string, readonly string[]>> = {
  front: ['rear', 'back'],
  rear: ['front'],
  back: ['front'],
  left: ['right'],
  right: ['left'],
  top: ['bottom', 'lower'],
  bottom: ['top', 'upper'],
  upper: ['lower', 'bottom'],
  lower: ['upper', 'top'],
};

/** Actions whose target is a fastener and never a part, with its kind. */
export const FASTENED_BY = { unscrew: 'screw', unplug: 'connector', desolder: 'solder' } as const;

/** What a fastener is called beside the name of the part that it holds. */
export const SORT_WORDS = { unscrew: 'screws', unplug: 'connector', desolder: 'solder' } as const;

/** Words that name a fastener and no part. */
export const FASTENER_WORDS: ReadonlySet<string> = new Set([
  'screw',
  'screws',
  'bolt',
  'bolts',
  'nut',
  'nuts',
  'pin',
  'pins',
  'connector',
  'plug',
  'socket',
  'flex',
  'contact',
  'contacts',
  'cable',
  'lead',
  'coax',
  'solder',
]);
