import { deviceOf } from '#record/device/device';
import { orderOff } from '#record/log/order-off';
import type { Assessment, Fastener, Part } from '#record/schema/assessment';

/** What is said of a new assessment when it is begun. */
export interface NewProduct {
  readonly name: string;
  readonly maker?: string;
  readonly category?: Assessment['product']['category'];
}

/** What does an assessment begin with when nothing is known but the product? */
export const beginFromNothing = ({ name, maker, category }: NewProduct): Assessment => ({
  format: 'unfasten/assessment',
  version: 1,
  product: {
    name: name.trim(),
    ...(maker === undefined || maker.trim() === '' ? {} : { maker: maker.trim() }),
    ...(category === undefined ? {} : { category }),
  },
});

/**
 * What does an assessment begin with when its predecessor was taken apart before? The structure as a guess: faces, parts,
 * fasteners with their ways, tools. All that was established of the old product goes back to "not known": trials, sights,
 * times, odds, materials and masses, what is sold, sessions, evidence. The teardown confirms the guess as it passes. Of the logs
 * only the order in which things came off is kept, as a hint for the bench.
 */
export const beginFromPredecessor = (product: NewProduct, predecessor: Assessment, name: string): Assessment => {
  const begun = beginFromStructure(product, predecessor);
  return {
    ...begun,
    ...(predecessor.invented === undefined ? {} : { invented: predecessor.invented }),
    product: {
      ...begun.product,
      ...(product.category === undefined && predecessor.product.category !== undefined
        ? { category: predecessor.product.category }
        : {}),
      predecessor: name,
      ...present('predecessorOrder', orderThere(predecessor, begun)),
    },
  };
};

/** In which order what both products have came off the old one; undefined where its logs do not say. */
const orderThere = (predecessor: Assessment, begun: Assessment): string[] | undefined => {
  const order = orderOff(predecessor, deviceOf(predecessor)).filter((id) => begun.parts?.[id] ?? begun.fasteners?.[id]);
  return order.length === 0 ? undefined : order;
};

/** What does an assessment begin with when only the structure of another record is wanted, of whatever product? */
export const beginFromStructure = (product: NewProduct, source: Assessment): Assessment => ({
  ...beginFromNothing(product),
  ...present('faces', source.faces),
  ...present('tools', source.tools && mapValues(source.tools, bareTool)),
  ...present('parts', source.parts && mapValues(source.parts, bareParts)),
  ...present('fasteners', source.fasteners && mapValues(source.fasteners, bareFastener)),
});

/** A tool is the laboratory's, and stays what it is; its papers were filed with the other record. */
const bareTool = (tool: NonNullable<Assessment['tools']>[string]) => without(tool, ['evidence']);

/** Kept of a part: that it is expected, what it is, what carries it, which side it is reached from. */
const bareParts = (part: Part): Part => ({
  ...present('name', part.name),
  ...present('role', part.role),
  ...present('within', part.within),
  ...present('face', part.face),
  ...present('absent', part.absent),
});

/** Kept of a fastener: what it is and between what, and in which manners it may be released. */
const bareFastener = (fastener: Fastener): Fastener => ({
  ...without(fastener, ['trials', 'behind', 'requires', 'ways', 'source', 'date', 'evidence', 'note']),
  ...present('ways', fastener.ways && mapValues(fastener.ways, bareWay)),
});

/** Kept of a way: its actions and tools, and the reuse class it is expected to leave. Times and odds were the old product's. */
const bareWay = (way: NonNullable<Fastener['ways']>[string]) => ({
  ...without(way, ['odds', 'source', 'date', 'evidence', 'note']),
  actions: way.actions.map((action) => without(action, ['takes', 'note'])),
});

const mapValues = <In, Out>(map: Readonly<Record<string, In>>, to: (value: In) => Out): Record<string, Out> =>
  Object.fromEntries(Object.entries(map).map(([key, value]) => [key, to(value)]));

const present = <Name extends string, Value>(name: Name, value: Value | undefined) =>
  (value === undefined ? {} : { [name]: value }) as { [Key in Name]?: Value };

const without = <Value extends object, Key extends keyof Value>(
  value: Value,
  keys: readonly Key[],
): Omit<Value, Key> => {
  const rest = { ...value };
  for (const key of keys) delete rest[key];
  return rest;
};
