import { combined, type Dimension } from './dimension.ts';
import { dividedBy, type Rational, rational, times } from './rational.ts';
import { prefixFactors, type UnitAtom, unitAtoms } from './unit-table.ts';

/** A unit as written, with what it is in coherent SI units. */
export interface Unit {
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly factor: Rational;
  readonly offset?: Rational;
  readonly currency?: string;
}

const ONE: Unit = { symbol: '', dimension: {}, factor: rational(1n) };
const LONGEST = 40;

/**
 * Which unit does a symbol name? A symbol of the table, with prefix and power (`mm²`, `mm2`, `mm^2`), or several joined by
 * blank, `·`, `*` or `/` (`cN m`, `EUR/kg`). `undefined` when a symbol is not known.
 */
export const findUnit = (symbol: string): Unit | undefined => {
  const trimmed = symbol.trim();
  if (trimmed === '' || trimmed.length > LONGEST) return undefined;
  const known = cache.get(trimmed);
  if (known) return known;
  const found = readUnit(trimmed);
  if (found && cache.size < CACHED) cache.set(trimmed, found);
  return found;
};

/** Units found before: a log names the same few a hundred thousand times. The answer is the same with and without. */
const cache = new Map<string, Unit>();
const CACHED = 500;

const readUnit = (symbol: string): Unit | undefined => {
  const factors = symbol.split(/\s*([·⋅*/])\s*|\s+/);
  let unit: Unit | undefined = ONE;
  let power = 1;
  for (const factor of factors) {
    if (factor === undefined || factor === '') continue;
    if (/^[·⋅*/]$/.test(factor)) {
      power = factor === '/' ? -1 : power;
      continue;
    }
    const next = findFactor(factor);
    unit = unit && next && multiply(unit, next, power);
  }
  return unit && { ...unit, symbol };
};

const SUPERSCRIPTS: Readonly<Record<string, number>> = { '²': 2, '³': 3, '2': 2, '3': 3, '^2': 2, '^3': 3 };

const findFactor = (text: string): Unit | undefined => {
  const [, name = '', exponent] = /^(.*?)(\^?[23]|[²³])?$/.exec(text) ?? [];
  const unit = findAtom(name);
  const power = exponent === undefined ? 1 : SUPERSCRIPTS[exponent];
  if (!unit || power === undefined) return undefined;
  let raised: Unit | undefined = unit;
  for (let index = 1; index < power; index += 1) raised = raised && multiply(raised, unit, 1);
  return raised;
};

const findAtom = (name: string): Unit | undefined => {
  if (Object.hasOwn(unitAtoms, name)) return asUnit(name, unitAtoms[name], rational(1n));
  const [prefix = ''] = name;
  const rest = name.slice(prefix.length);
  const atom = Object.hasOwn(unitAtoms, rest) ? unitAtoms[rest] : undefined;
  const factor = Object.hasOwn(prefixFactors, prefix) ? prefixFactors[prefix] : undefined;
  if (!atom?.prefixes || !factor) return undefined;
  if (atom.prefixes === 'small' && factor.numerator > 1n) return undefined;
  return asUnit(name, atom, factor);
};

const asUnit = (symbol: string, atom: UnitAtom | undefined, prefix: Rational): Unit | undefined =>
  atom && {
    symbol,
    dimension: atom.dimension,
    factor: times(atom.factor, prefix),
    ...(atom.offset ? { offset: atom.offset } : {}),
    ...(atom.currency ? { currency: atom.currency } : {}),
  };

/** A scale with its own zero has no products; amounts of two currencies have no product either. */
const multiply = (a: Unit, b: Unit, power: number): Unit | undefined => {
  if (a === ONE && power === 1) return b;
  if (a.offset || b.offset || (a.currency && b.currency)) return undefined;
  const currency = a.currency ?? b.currency;
  return {
    symbol: '',
    dimension: combined(a.dimension, b.dimension, power),
    factor: power === 1 ? times(a.factor, b.factor) : dividedBy(a.factor, b.factor),
    ...(currency ? { currency } : {}),
  };
};
