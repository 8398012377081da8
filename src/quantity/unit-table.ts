import { type Dimension, dimensions } from './dimension.ts';
import { type Rational, rational } from './rational.ts';

/** One unit symbol: how many coherent SI units it is, exactly, and which prefixes may stand before it. */
export interface UnitAtom {
  readonly dimension: Dimension;
  /** Value of one unit in coherent SI units (kg, m, s, A, K, …; EUR and others for money; 1 for ratio; degree for angle). */
  readonly factor: Rational;
  /** Added after the factor, for scales whose zero lies elsewhere [K]. */
  readonly offset?: Rational;
  readonly prefixes?: 'all' | 'small' | undefined;
  /** Amounts of different currencies do not convert. */
  readonly currency?: string;
}

const one = rational(1n);
const of = (dimension: Dimension, factor: Rational = one, prefixes?: 'all' | 'small'): UnitAtom => ({
  dimension,
  factor,
  prefixes,
});
const money = (currency: string): UnitAtom => ({ dimension: dimensions.money, factor: one, currency });

const second = of(dimensions.time, one, 'small');
const hour = of(dimensions.time, rational(3600n));
const day = of(dimensions.time, rational(86_400n));
const litre = of(dimensions.volume, rational(1n, 1000n), 'small');
const inch = of(dimensions.length, rational(254n, 10_000n));
const degree = of(dimensions.angle);
const ohm = of(dimensions.resistance, one, 'all');

/**
 * The units of the bench. SI units and those accepted beside them after the SI Brochure, 9th edition (2019), tables 2, 4
 * and 8; inch 25.4 mm (international inch); gram-force is left out on purpose. TMU 0.036 s = 1/100,000 h, the time
 * measurement unit of predetermined-motion systems (Zandin, MOST Work Measurement Systems, 4th ed.).
 */
export const unitAtoms: Readonly<Record<string, UnitAtom>> = {
  m: of(dimensions.length, one, 'all'),
  in: inch,
  inch: inch,
  '″': inch,
  '"': inch,
  g: of(dimensions.mass, rational(1n, 1000n), 'all'),
  t: of(dimensions.mass, rational(1000n)),
  s: second,
  sec: second,
  min: of(dimensions.time, rational(60n)),
  h: hour,
  hour: hour,
  hours: hour,
  d: day,
  day: day,
  days: day,
  week: of(dimensions.time, rational(604_800n)),
  weeks: of(dimensions.time, rational(604_800n)),
  TMU: of(dimensions.time, rational(36n, 1000n)),
  A: of(dimensions.current, one, 'all'),
  Ah: of(dimensions.charge, rational(3600n), 'all'),
  C: of(dimensions.charge, one, 'all'),
  K: of(dimensions.temperature, one, 'all'),
  '°C': { ...of(dimensions.temperature), offset: rational(27_315n, 100n) },
  V: of(dimensions.voltage, one, 'all'),
  Ω: ohm,
  ohm: ohm,
  W: of(dimensions.power, one, 'all'),
  J: of(dimensions.energy, one, 'all'),
  Wh: of(dimensions.energy, rational(3600n), 'all'),
  N: of(dimensions.force, one, 'all'),
  Pa: of(dimensions.pressure, one, 'all'),
  bar: of(dimensions.pressure, rational(100_000n), 'small'),
  Hz: of(dimensions.frequency, one, 'all'),
  cd: of(dimensions['luminous intensity']),
  L: litre,
  l: litre,
  deg: degree,
  '°': degree,
  '%': of(dimensions.ratio, rational(1n, 100n)),
  '‰': of(dimensions.ratio, rational(1n, 1000n)),
  ppm: of(dimensions.ratio, rational(1n, 1_000_000n)),
  EUR: money('EUR'),
  '€': money('EUR'),
  GBP: money('GBP'),
  '£': money('GBP'),
  USD: money('USD'),
  CHF: money('CHF'),
  SEK: money('SEK'),
  DKK: money('DKK'),
  NOK: money('NOK'),
  PLN: money('PLN'),
  CZK: money('CZK'),
  HUF: money('HUF'),
  RON: money('RON'),
  JPY: money('JPY'),
  CNY: money('CNY'),
};

/** Decimal prefixes of the SI that the bench meets; `small` units take those up to one. */
export const prefixFactors: Readonly<Record<string, Rational>> = {
  G: rational(1_000_000_000n),
  M: rational(1_000_000n),
  k: rational(1000n),
  d: rational(1n, 10n),
  c: rational(1n, 100n),
  m: rational(1n, 1000n),
  µ: rational(1n, 1_000_000n),
  μ: rational(1n, 1_000_000n),
  u: rational(1n, 1_000_000n),
  n: rational(1n, 1_000_000_000n),
  p: rational(1n, 1_000_000_000_000n),
};
