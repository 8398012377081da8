import { expect, it } from 'vitest';
import { tinyRecord, tinySession } from '../../../test/fixtures/tiny-record.ts';
import { deviceOf } from '../device/device.ts';
import { orderOff } from './order-off.ts';

const lift = (target: string) => ({ do: 'lift', target });
const order = (sessions: Record<string, unknown>) => {
  const record = tinyRecord({ parts: { a: {}, b: {}, c: {} }, sessions });
  return orderOff(record, deviceOf(record));
};
const sessionAt = (day: number, log: Record<string, Record<string, unknown>>, rest: Record<string, unknown> = {}) =>
  tinySession(log, { start: `2026-10-0${day}T09:00:00+02:00`, specimen: `u${day}`, ...rest });

it('is that of the run in which most came off, each thing where it first did', () => {
  const long = { x: lift('b'), y: { do: 'fit', target: 'b' }, z: lift('b'), w: lift('a') };
  expect(order({ s: sessionAt(1, { x: lift('c') }), t: sessionAt(2, long) })).toEqual(['b', 'a']);
});

it('is that of the first run among equals, and of none that did not begin complete', () => {
  const unknown = sessionAt(3, { x: lift('a'), y: lift('b') }, { startsAs: { leftBy: 'elsewhere' } });
  expect(order({ u: unknown, t: sessionAt(2, { x: lift('a') }), s: sessionAt(1, { x: lift('c') }) })).toEqual(['c']);
});
