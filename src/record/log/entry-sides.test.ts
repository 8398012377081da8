import { expect, test } from 'vitest';
import { deviceOf } from '../device/device.ts';
import type { Assessment } from '../schema/assessment.ts';
import { entrySides } from './entry-sides.ts';
import { trialsOf } from './trials.ts';

const sidesOf = (battery: object, off: readonly string[]) => {
  const parts = {
    display: { face: 'front' },
    shield: { face: 'front' },
    cover: { face: 'back' },
    bracket: {},
    battery: { face: 'back', ...battery },
  };
  const record = { format: 'unfasten/assessment', version: 1, product: { name: 'Tarn 5' }, parts } as Assessment;
  const device = deviceOf(record);
  return entrySides('battery', new Set(off), { device, trials: trialsOf(record, device) });
};

test('a part with a way in from two faces lies at the one its best route comes by, with the other besides', () => {
  const behind = [['display', 'shield'], ['cover']];
  expect(sidesOf({ behind }, ['cover'])).toEqual({ place: 'back', others: ['front'] });
  expect(sidesOf({ behind }, ['display', 'shield'])).toEqual({ place: 'front', others: ['back'] });
  expect(sidesOf({ behind }, ['display', 'shield', 'cover'])).toEqual({ place: 'back', others: ['front'] });
});

test('two trials with different faces off are two ways in; one with both off is no way in of either', () => {
  const came = (...off: string[]) => ({ off, came: 'yes' });
  expect(sidesOf({ trials: { a: came('cover'), b: came('display', 'shield') } }, ['cover']).others).toEqual(['front']);
  expect(sidesOf({ trials: { a: came('cover', 'display') } }, ['cover', 'display'])).toEqual({
    place: 'back',
    others: [],
  });
});

test('what is off without a face says nothing of the side: the recorded face stands', () => {
  expect(sidesOf({ behind: [['bracket']] }, ['bracket'])).toEqual({ place: 'back', others: [] });
  expect(sidesOf({ face: 'front', behind: [['cover']] }, ['cover'])).toEqual({ place: 'front', others: [] });
  expect(sidesOf({ behind: [] }, [])).toEqual({ place: 'back', others: [] });
  expect(sidesOf({ face: undefined, behind: [['cover']] }, ['cover'])).toEqual({ place: 'back', others: [] });
  expect(sidesOf({ face: undefined }, [])).toEqual({ place: undefined, others: [] });
});
