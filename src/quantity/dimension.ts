/** The base dimensions: those of the SI that bench work needs, with money, plane angle and ratio as bases of their own. */
const BASES = ['length', 'mass', 'time', 'current', 'temperature', 'light', 'money', 'angle', 'ratio'] as const;

/** One base dimension. */
export type Base = (typeof BASES)[number];

/** The exponents of the bases; a base that is not named has exponent zero. Energy is `{ mass: 1, length: 2, time: -2 }`. */
export type Dimension = Readonly<Partial<Record<Base, number>>>;

/** What is the dimension of a product `a × b^power`? */
export const combined = (a: Dimension, b: Dimension, power = 1): Dimension => {
  const result: Partial<Record<Base, number>> = {};
  for (const base of BASES) {
    const exponent = (a[base] ?? 0) + power * (b[base] ?? 0);
    if (exponent !== 0) result[base] = exponent;
  }
  return result;
};

/** Are two dimensions the same? */
export const sameDimension = (a: Dimension, b: Dimension): boolean =>
  BASES.every((base) => (a[base] ?? 0) === (b[base] ?? 0));

/** The dimensions that have a word of their own, in the words that messages use. */
export const dimensions = {
  ratio: { ratio: 1 },
  length: { length: 1 },
  area: { length: 2 },
  volume: { length: 3 },
  mass: { mass: 1 },
  time: { time: 1 },
  temperature: { temperature: 1 },
  money: { money: 1 },
  angle: { angle: 1 },
  current: { current: 1 },
  charge: { current: 1, time: 1 },
  voltage: { mass: 1, length: 2, time: -3, current: -1 },
  resistance: { mass: 1, length: 2, time: -3, current: -2 },
  energy: { mass: 1, length: 2, time: -2 },
  power: { mass: 1, length: 2, time: -3 },
  force: { mass: 1, length: 1, time: -2 },
  pressure: { mass: 1, length: -1, time: -2 },
  frequency: { time: -1 },
  'luminous intensity': { light: 1 },
  illuminance: { light: 1, length: -2 },
} as const satisfies Record<string, Dimension>;

/** A dimension that has a word of its own. */
export type DimensionName = keyof typeof dimensions;

/** How is a dimension called? Time reads `time`, energy and torque (which share it) `energy`; others as a formula. */
export const dimensionName = (dimension: Dimension): string => {
  for (const [name, known] of Object.entries(dimensions)) if (sameDimension(known, dimension)) return name;
  const factors = BASES.filter((base) => dimension[base]).map((base) =>
    dimension[base] === 1 ? base : `${base}^${dimension[base]}`,
  );
  return factors.length === 0 ? 'a bare number' : factors.join(' × ');
};
