/** A map of fields as read, before anything is known of its values. */
export type PlainMap = Readonly<Record<string, unknown>>;

/** Is this a map of fields? */
export const isPlainMap = (value: unknown): value is PlainMap =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Which items does a collection hold that are maps? None where it is missing or no map; the schema check says so. */
export const itemsOf = (collection: unknown): readonly (readonly [id: string, item: PlainMap])[] =>
  isPlainMap(collection)
    ? Object.entries(collection).filter((pair): pair is [string, PlainMap] => isPlainMap(pair[1]))
    : [];

/** Which item has this id? `undefined` where the collection or the item is missing or no map. */
export const itemOf = (collection: unknown, id: unknown): PlainMap | undefined => {
  if (!isPlainMap(collection) || typeof id !== 'string' || !Object.hasOwn(collection, id)) return undefined;
  const item = collection[id];
  return isPlainMap(item) ? item : undefined;
};

/** The value when it is a text. */
export const textOf = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);

/** The value when it is a number. */
export const numberOf = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined);

/** The texts of a list with their places; a lone text counts as a list of one without a place. */
export const textsOf = (value: unknown): readonly string[] => {
  if (typeof value === 'string') return [value];
  return Array.isArray(value) ? value.filter((item): item is string => typeof item === 'string') : [];
};
