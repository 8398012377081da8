/** Which actions let a fastener go, when they are done on it? Preparing it (heat, solvent) does not. */
export const RELEASING: ReadonlySet<string> = new Set([
  'unscrew',
  'pry',
  'release-clips',
  'pull',
  'peel',
  'cut',
  'unplug',
  'desolder',
]);

/** Which releasing actions, done on a part itself, bring the part away with them? Unscrewing or unplugging leaves it lying. */
export const PARTING: ReadonlySet<string> = new Set(['pry', 'release-clips', 'pull', 'peel', 'cut']);

/** Which actions prepare another, and are fused with it? */
export const PREPARING: ReadonlySet<string> = new Set(['heat', 'dissolve', 'cool']);

/** Which actions put something back? */
export const REFITTING: ReadonlySet<string> = new Set(['fit', 'seat', 'plug', 'fasten', 'bond', 'press', 'close']);

/** Kinds of fastener whose pieces come away as items of their own, once released. */
const ITEM_KINDS: ReadonlySet<string> = new Set(['screw', 'nut', 'pin', 'rivet', 'stretch-release-strip', 'tape']);

/** Do the pieces of such a fastener come away as items (row 1 of the interpretations: each removed fastener or strip)? */
export const comesAsItems = (kind: string): boolean => ITEM_KINDS.has(kind);

const KIND_OF_ACTION: Readonly<Record<string, string>> = {
  unscrew: 'screw',
  unplug: 'connector',
  'release-clips': 'clip',
  desolder: 'solder',
  peel: 'tape',
};

/** What kind of fastener is one of which only a releasing action is known? What the action tells, else `other`. */
export const kindOfAction = (action: string | undefined): string => KIND_OF_ACTION[action ?? ''] ?? 'other';
