/** What a key or pedal can be bound to. */
export type BenchOrder =
  | 'mark'
  | 'take'
  | 'partial'
  | 'failed'
  | 'damage'
  | 'later'
  | 'earlier'
  | 'next'
  | 'undo'
  | 'write'
  | 'goal'
  | 'hold'
  | 'retake'
  | 'overlap'
  | 'catch-up'
  | 'on-air'
  | 'card'
  | 'incident'
  | 'came'
  | 'not-came'
  | 'came-damaged'
  | 'not-tried';

/** Which key gives which order? By `KeyboardEvent.key`, letters lower-case. */
export type KeyMap = Readonly<Record<BenchOrder, string>>;

/** The keys as delivered. A pedal sends what it is set to; most send a space. */
const DEFAULT_KEYS: KeyMap = {
  mark: ' ',
  take: 'Enter',
  partial: 'p',
  failed: 'f',
  damage: 'd',
  later: 'l',
  earlier: 'e',
  next: 'n',
  undo: 'u',
  write: '/',
  goal: 'g',
  hold: 'h',
  retake: 'r',
  overlap: 'o',
  'catch-up': 'k',
  'on-air': 'a',
  card: 'c',
  incident: 'i',
  came: '1',
  'not-came': '2',
  'came-damaged': '3',
  'not-tried': '4',
};

/** Words for each order, where keys are bound. */
export const ORDER_WORDS: Readonly<Record<BenchOrder, string>> = {
  mark: 'mark a time',
  take: 'so it was',
  partial: 'partly',
  failed: 'failed',
  damage: 'damage',
  later: 'name later',
  earlier: 'mark before',
  next: 'next mark',
  undo: 'undo',
  write: 'write',
  goal: 'goal',
  hold: 'hold, go on',
  retake: 'retake, back',
  overlap: 'heat, soak or cure begins',
  'catch-up': 'catch up',
  'on-air': 'on air',
  card: 'clock card',
  incident: 'incident',
  came: 'came',
  'not-came': 'did not come',
  'came-damaged': 'came but damaged',
  'not-tried': 'not tried',
};

const KEPT_AS = 'unfasten.bench-keys';

/** Which order does a key give? Undefined for a key that is not bound. */
export const orderOf = (keys: KeyMap, key: string): BenchOrder | undefined => {
  const pressed = key.length === 1 ? key.toLowerCase() : key;
  return (Object.keys(keys) as BenchOrder[]).find((order) => keys[order] === pressed);
};

/** Binds a key to an order. Undefined where the key gives another order already, which must first have another key. */
export const bindKey = (keys: KeyMap, order: BenchOrder, key: string): KeyMap | undefined => {
  const pressed = key.length === 1 ? key.toLowerCase() : key;
  const holder = orderOf(keys, pressed);
  return holder === undefined || holder === order ? { ...keys, [order]: pressed } : undefined;
};

/** How is a key written on the screen? */
export const keyName = (key: string): string =>
  key === ' ' ? 'space' : key.length === 1 ? key.toUpperCase() : key.toLowerCase();

/** The keys this browser was taught; what is kept and does not fit is left. */
export const keptKeys = (): KeyMap => {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEPT_AS) ?? '{}');
    let keys = DEFAULT_KEYS;
    for (const [order, key] of Object.entries(typeof kept === 'object' && kept !== null ? kept : {}))
      if (Object.hasOwn(DEFAULT_KEYS, order) && typeof key === 'string' && key !== '')
        keys = { ...keys, [order]: key.length === 1 ? key.toLowerCase() : key };
    // Two orders on one key would leave one of them without any: then what is kept is not to be trusted.
    return new Set(Object.values(keys)).size === Object.keys(keys).length ? keys : DEFAULT_KEYS;
  } catch {
    return DEFAULT_KEYS;
  }
};

/** Keeps the keys in this browser. */
export const keepKeys = (keys: KeyMap): void => {
  try {
    localStorage.setItem(KEPT_AS, JSON.stringify(keys));
  } catch {
    // Without a store they have to be bound again next time.
  }
};
