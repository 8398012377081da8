import { roleFromId } from '#record/device/priority-roles';
import { pointerOf } from '#record/patch/json-pointer';
import type { Patch } from '#record/patch/operation';
import type { Assessment, Fastener } from '#record/schema/assessment';

/** A thing that was named for the first time: under which key, and how it was called. */
export interface NewThing {
  readonly key: string;
  readonly name: string;
  /** What is known of it where it is a fastener; without ends nobody said yet what it holds. */
  readonly fastener?: Pick<Fastener, 'kind' | 'count' | 'drive' | 'between'>;
}

/** Does the record describe parts and fasteners both, so that its log may name only what is described? */
export const isDescribed = ({ parts, fasteners }: Assessment): boolean => isFilled(parts) && isFilled(fasteners);

/**
 * Takes a thing into the record that was named for the first time: a fastener where the line says that it is one, else a part.
 * Nothing where the record's structure is still open, so that things appear as they are logged: one described part beside
 * described fasteners would close it for all others; there only a part's name that its key cannot hold is kept.
 */
export const newThing = (document: Assessment, { key, name, fastener }: NewThing): Patch => {
  if (document.parts?.[key] || document.fasteners?.[key]) return [];
  const isNameLost = name !== key.replaceAll('-', ' ') && !isFilled(document.fasteners);
  if (!isDescribed(document) && (fastener !== undefined || !isNameLost)) return [];
  const collection = fastener === undefined ? 'parts' : 'fasteners';
  const whole = document[collection] === undefined ? [{ op: 'add' as const, path: `/${collection}`, value: {} }] : [];
  const { between, ...known } = fastener ?? {};
  // The role its id would have in a log alone: a record without one says that the part has none.
  const role = fastener === undefined ? roleFromId(key) : undefined;
  const value = {
    name: name.slice(0, 10_000),
    ...(role === undefined ? {} : { role }),
    ...known,
    ...(between ? { between: [...between] } : {}),
  };
  return [...whole, { op: 'add', path: pointerOf([collection, key]), value }];
};

/** Takes several new things in; the map they go into is opened once. */
export const newThings = (document: Assessment, things: readonly NewThing[]): Patch => {
  const seen = new Set<string>();
  return things.flatMap((thing) => newThing(document, thing)).filter(({ path }) => !seen.has(path) && seen.add(path));
};

const isFilled = (collection: object | undefined): boolean => Object.keys(collection ?? {}).length > 0;
