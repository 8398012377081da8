// Source: Zandin, K. B.: MOST Work Measurement Systems, 4th edition, CRC Press 2021, sections 2, 4 and 12, as transcribed in
// the project's notes on disassembly methods (section 0, check values 1 to 5). All values are printed exactly; no tolerance.
import { expect, test } from 'vitest';
import { mostSeconds, mostTmu, tmuSeconds } from '#quantity/motion-time';
import { parseQuantity } from '#quantity/parse-quantity';
import { inUnit } from '#quantity/quantity';

test('section 2: one TMU is 0.036 s, 0.0006 min and 0.00001 h', () => {
  const { quantity } = parseQuantity('1 TMU');
  const converted = ['s', 'min', 'h'].map((unit) => quantity && inUnit(quantity, unit)?.value);
  expect(converted).toEqual([0.036, 0.0006, 0.00001]);
});

test('section 4: A6 B6 G1 A1 B0 P3 A0 is 170 TMU, 6.12 s', () => {
  const indices = [6, 6, 1, 1, 0, 3, 0];
  expect([mostTmu(indices), mostSeconds(indices)]).toEqual([170, 6.12]);
});

test('section 4: A1 B0 G1 M1 X10 I0 A0 is 130 TMU, 4.68 s', () => {
  const indices = [1, 0, 1, 1, 10, 0, 0];
  expect([mostTmu(indices), mostSeconds(indices)]).toEqual([130, 4.68]);
});

test('section 12: tool use A1 B0 G1 A1 B0 P3 F10 A1 B0 P1 A0 is 180 TMU, 6.48 s', () => {
  const indices = [1, 0, 1, 1, 0, 3, 10, 1, 0, 1, 0];
  expect([mostTmu(indices), mostSeconds(indices)]).toEqual([180, 6.48]);
});

test('800 TMU are 28.8 s of normal time and 33.12 s with an allowance of 15 %', () => {
  expect([tmuSeconds(800), tmuSeconds(800, 15)]).toEqual([28.8, 33.12]);
});
