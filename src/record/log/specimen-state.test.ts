import { expect, it } from 'vitest';
import { type TinyRecord, tinyRecord, tinySession } from '../../../test/fixtures/tiny-record.ts';
import { deviceOf } from '../device/device.ts';
import { benchRuns } from './bench-log.ts';
import { walkRun } from './replay.ts';

// O carries M, M carries C; a screw holds O, a clip holds M in O.
const structure: TinyRecord = {
  parts: { O: {}, M: { within: 'O' }, C: { within: 'M' } },
  fasteners: { screw: { kind: 'screw', between: ['O', 'chassis'] }, clip: { kind: 'clip', between: ['M', 'O'] } },
};

const after = (...work: readonly Record<string, unknown>[]): Record<string, string> => {
  const entries = Object.fromEntries(work.map((entry, index) => [`e${index}`, entry]));
  const record = tinyRecord({ ...structure, sessions: { s: tinySession(entries) } });
  const device = deviceOf(record);
  const [run] = benchRuns(record);
  if (!run) return {};
  const state = walkRun({ assessment: record, device }, run, () => undefined);
  const parts = [...state.parts].map(([id, { state: how, carriedBy }]) => [
    id,
    carriedBy ? `${how} with ${carriedBy}` : how,
  ]);
  return Object.fromEntries([...[...state.released.keys()].map((id) => [id, 'released']), ...parts]);
};
const lift = (target: string) => ({ do: 'lift', target });
const putBack = (target: string) => ({ do: 'fit', target });

it('a part that is lifted is free, its contents go aside with it', () => {
  expect(after(lift('O'))).toEqual({ O: 'free', M: 'aside with O', C: 'aside with O' });
});

it('a part taken out of a carrier that is off takes its own contents along', () => {
  expect(after(lift('O'), lift('M'))).toEqual({ O: 'free', M: 'free', C: 'aside with M' });
});

it('putting a carrier back takes back what rides on it, not what was taken off it', () => {
  expect(after(lift('O'), putBack('O'))).toEqual({});
  expect(after(lift('O'), lift('M'), putBack('O'))).toEqual({ M: 'free', C: 'aside with M' });
  expect(after({ do: 'fold-aside', target: 'C' }, lift('O'), putBack('O'))).toEqual({ C: 'aside' });
});

it('a part put back into a carrier that is off is aside with it', () => {
  expect(after(lift('O'), lift('M'), putBack('M'))).toEqual({ O: 'free', M: 'aside with O', C: 'aside with O' });
});

it('a part goes back with its fasteners still released, until they are refitted', () => {
  const screw = { do: 'unscrew', target: 'screw' };
  expect(after(screw, lift('O'), putBack('O'))).toEqual({ screw: 'released' });
  expect(after(screw, lift('O'), putBack('O'), { do: 'fasten', target: 'screw' })).toEqual({});
});
