import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseQuantity } from './parse-quantity.ts';
import { inUnit, quantityKind } from './quantity.ts';

const read = (text: string) => {
  const { quantity } = parseQuantity(text);
  if (!quantity) return undefined;
  const { value, uncertainty, low, high, unit } = quantity;
  return [value, uncertainty, low, high, unit.symbol];
};

test.each([
  ['17 Wh', [17, undefined, undefined, undefined, 'Wh']],
  ['3.1 ± 0.1 g', [3.1, 0.1, undefined, undefined, 'g']],
  ['3.1+/-0.1 g', [3.1, 0.1, undefined, undefined, 'g']],
  ['(3.1 ± 0.1) g', [3.1, 0.1, undefined, undefined, 'g']],
  ['3.1 g ± 0.1 g', [3.1, 0.1, undefined, undefined, 'g']],
  ['12 g ± 5 %', [12, 0.6, undefined, undefined, 'g']],
  ['25 ± 2 %', [25, 2, undefined, undefined, '%']],
  ['2 to 3 min', [2.5, undefined, 2, 3, 'min']],
  ['2–3 min', [2.5, undefined, 2, 3, 'min']],
  ['2-3 min', [2.5, undefined, 2, 3, 'min']],
  ['20 °C to 25 °C', [22.5, undefined, 20, 25, '°C']],
  ['-3 to -1 °C', [-2, undefined, -3, -1, '°C']],
  ['3,1 g', [3.1, undefined, undefined, undefined, 'g']],
  ['0,125 g', [0.125, undefined, undefined, undefined, 'g']],
  ['1 299,50 EUR', [1299.5, undefined, undefined, undefined, 'EUR']],
  ['€ 649', [649, undefined, undefined, undefined, '€']],
  ['EUR 649', [649, undefined, undefined, undefined, 'EUR']],
  ['−5 °C', [-5, undefined, undefined, undefined, '°C']],
  ['1e3 TMU', [1000, undefined, undefined, undefined, 'TMU']],
  ['6.3"', [6.3, undefined, undefined, undefined, '"']],
  ['12 cN m', [12, undefined, undefined, undefined, 'cN m']],
  ['4 mL', [4, undefined, undefined, undefined, 'mL']],
])('parseQuantity reads %j', (text, expected) => {
  expect(read(text)).toEqual(expected);
});

test.each([
  ['5', 'the unit is missing'],
  ['g', 'this is no quantity'],
  ['', 'this is no quantity'],
  ['1,234 g', '"1,234" may mean a decimal or a thousand'],
  ['3 furlong', '"furlong" is no unit known here'],
  ['649 $', '"$" is no unit known here'],
  ['~5 g', 'a bound or estimate is no quantity'],
  ['up to 5 g', 'a bound or estimate is no quantity'],
  ['7 min 30 s', 'a quantity has one number and one unit'],
  ['30 to 20 s', 'the range runs backwards'],
  ['2 s to 3 min', 'the ends of the range have different units'],
  ['5 g ± 1 mm', 'value and uncertainty have different units'],
  ['5 ± -1 g', 'an uncertainty is not negative'],
  [`${'1'.repeat(200)} g`, 'the quantity is too long'],
])('parseQuantity refuses %j', (text, message) => {
  expect(parseQuantity(text)).toMatchObject({ message });
});

describe('inUnit converts exactly', () => {
  test.each([
    ['12 cN m', 'N m', 0.12],
    ['12 N·cm', 'N m', 0.12],
    ['6.3 in', 'mm', 160.02],
    ['17 Wh', 'kJ', 61.2],
    ['4300 mAh', 'Ah', 4.3],
    ['4300 mAh', 'C', 15_480],
    ['25 °C', 'K', 298.15],
    ['298.15 K', '°C', 25],
    ['1 TMU', 's', 0.036],
    ['100000 TMU', 'h', 1],
    ['8 min', 's', 480],
    ['3 d', 'h', 72],
    ['5 mL', 'mm3', 5000],
    ['1 L', 'cm³', 1000],
    ['16.7 kPa', 'N/mm²', 0.0167],
    ['25 %', '‰', 250],
    ['7 EUR/kg', 'EUR/g', 0.007],
    ['0.1 m', 'µm', 100_000],
  ])('%s is so many %s', (text, unit, expected) => {
    const { quantity } = parseQuantity(text);
    expect(quantity && inUnit(quantity, unit)?.value).toBe(expected);
  });

  test('uncertainties convert by the factor alone, ends by the scale', () => {
    const { quantity: temperature } = parseQuantity('20 ± 1 °C');
    expect(temperature && inUnit(temperature, 'K')).toMatchObject({ value: 293.15, uncertainty: 1 });
    const { quantity: range } = parseQuantity('2 to 3 min');
    expect(range && inUnit(range, 's')).toMatchObject({ value: 150, low: 120, high: 180 });
  });

  test('another dimension or currency does not convert', () => {
    const { quantity: mass } = parseQuantity('3 g');
    const { quantity: price } = parseQuantity('649 EUR');
    expect([mass && inUnit(mass, 's'), price && inUnit(price, 'USD'), price && inUnit(price, '€')?.value]).toEqual([
      undefined,
      undefined,
      649,
    ]);
  });
});

test('quantityKind names the dimension as messages do', () => {
  const kinds = ['3 g', '8 min', '2 m/s', '5 A h'].map((text) => {
    const { quantity } = parseQuantity(text);
    return quantity && quantityKind(quantity);
  });
  expect(kinds).toEqual(['mass', 'time', 'length × time^-1', 'charge']);
});

test('parseQuantity throws nothing and reads what it wrote, whatever the text', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 130 }), (text) => {
      const { quantity } = parseQuantity(text);
      if (quantity) expect(Number.isFinite(quantity.value)).toBe(true);
    }),
  );
  fc.assert(
    fc.property(fc.integer({ min: -99_999, max: 99_999 }), fc.integer({ min: 0, max: 4 }), (digits, places) => {
      const text = (digits / 10 ** places).toFixed(places);
      expect(parseQuantity(`${text} mm`).quantity?.value).toBe(Number(text) + 0);
    }),
  );
});
