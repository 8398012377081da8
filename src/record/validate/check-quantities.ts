import { type DimensionName, dimensions, sameDimension } from '#quantity/dimension';
import { parseQuantity } from '#quantity/parse-quantity';
import { inUnit, type Quantity, quantityKind, reachesBelowZero } from '#quantity/quantity';
import type { ProblemWords } from '../problem.ts';
import type { FieldRule } from './field-walk.ts';
import type { Findings } from './findings.ts';
import { type QuantityField, quantityFields } from './quantity-table.ts';

/**
 * Is every quantity one, and of the dimension its field is for? A mass where a time is expected, a negative length and a
 * charge over 100 % are reported where they stand.
 */
export const quantityRules = (findings: Findings): readonly FieldRule[] =>
  quantityFields.map((field) => {
    const seen = new Map<string, ProblemWords | undefined>();
    return {
      pattern: field.pattern,
      check: (value, path) => {
        if (typeof value !== 'string') return;
        if (!seen.has(value)) seen.set(value, quantityFault(value, field));
        const words = seen.get(value);
        if (words) findings.add(path, words);
      },
    };
  });

const quantityFault = (text: string, field: QuantityField): ProblemWords | undefined => {
  const reading = parseQuantity(text);
  if (!reading.quantity) return { value: text, kind: 'quantity', message: reading.message, remedy: reading.remedy };
  const { quantity } = reading;
  if (!field.dimensions) return undefined;
  if (!field.dimensions.some((name) => hasDimension(quantity, name)))
    return wrongDimension(text, quantity, field.dimensions);
  if (!field.mayBeNegative && !hasDimension(quantity, 'temperature') && reachesBelowZero(quantity))
    return {
      value: text,
      kind: 'value',
      message: 'this cannot be less than zero',
      remedy: 'Check the sign and the uncertainty.',
    };
  const most = [
    [field.atMostPercent, '%'],
    [field.atMostSeconds, 's'],
  ] as const;
  for (const [bound, unit] of most)
    if (bound !== undefined && (inUnit(quantity, unit)?.value ?? 0) > bound)
      return { value: text, kind: 'value', message: `this is at most ${bound} ${unit}`, remedy: 'Check the figure.' };
  return undefined;
};

const hasDimension = (quantity: Quantity, name: DimensionName): boolean =>
  sameDimension(quantity.unit.dimension, dimensions[name]);

const wrongDimension = (text: string, quantity: Quantity, expected: readonly DimensionName[]): ProblemWords => ({
  value: text,
  kind: 'dimension',
  message: `${expected.join(' or ')} expected, found ${quantityKind(quantity)}`,
  remedy: `Write it in a unit such as ${expected
    .map((name) => exampleUnits[name])
    .filter(Boolean)
    .join(' or ')}.`,
});

const exampleUnits: Readonly<Partial<Record<DimensionName, string>>> = {
  mass: 'g',
  length: 'mm or in',
  time: 's, min or d',
  energy: 'Wh',
  money: 'EUR',
  temperature: '°C',
  volume: 'mL',
  ratio: '%',
};
