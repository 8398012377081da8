import { expect, test } from 'vitest';
import { collectingStreams } from '../../test/collecting-streams.ts';
import { startProgress } from './progress.ts';

function stage(isTTY: boolean) {
  const clock = { now: 0 };
  const { streams, err } = collectingStreams({ isTTY, columns: 60 });
  return { clock, err, progress: startProgress(streams, 'routes', () => clock.now) };
}

test('startProgress is silent in the first second, then says what and how long, and clears its line', () => {
  const { clock, err, progress } = stage(true);
  clock.now = 900;
  progress.update('battery');
  expect(err()).toBe('');
  clock.now = 2_100;
  progress.update('display');
  expect(err()).toBe('\r\u001b[2Kroutes: display (2 s)');
  clock.now = 2_150;
  progress.update('dropped: too soon after the last');
  progress.stop();
  progress.stop();
  expect(err()).toBe('\r\u001b[2Kroutes: display (2 s)\r\u001b[2K');
});

test('startProgress says nothing when standard error is not a terminal', () => {
  const { clock, err, progress } = stage(false);
  clock.now = 60_000;
  progress.update('battery');
  progress.stop();
  expect(err()).toBe('');
});
