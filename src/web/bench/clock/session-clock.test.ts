import { expect, test } from 'vitest';
import { cardText, crc32, readCard } from './clock-card.ts';
import {
  absenceOf,
  absenceSince,
  clockFace,
  clockNews,
  goOn,
  movedOn,
  putOn,
  readKept,
  sessionTime,
  takeUp,
} from './session-clock.ts';

const HOUR = 3_600_000;

test('session time goes by the monotonic clock, whatever the wall clock does', () => {
  const anchor = takeUp(0, 0, { monotonic: 500, wall: 0 });
  expect(sessionTime(anchor, { monotonic: 1750, wall: -HOUR })).toBe(1.25);
});

test('a page opened anew goes on from the wall time, and never before the last entry', () => {
  expect(takeUp(1000, 20, { monotonic: 0, wall: 61_000 }).at).toBe(60);
  expect(takeUp(HOUR, 20, { monotonic: 0, wall: 0 }).at).toBe(20);
});

test('a page that kept its time goes on from it, whatever became of the wall clock before', () => {
  const session = { startWall: 0, lastAt: 20 };
  const kept = { at: 30, wall: HOUR + 30_000 };
  expect(goOn(kept, session, { monotonic: 0, wall: HOUR + 31_500 })).toMatchObject({
    anchor: { at: 31.5 },
    away: undefined,
  });
  expect(goOn(kept, session, { monotonic: 0, wall: 0 }).anchor.at).toBe(30);
});

test('a long absence is told with its ends, so that it can be made a pause', () => {
  const session = { startWall: 0, lastAt: 20 };
  expect(goOn(undefined, session, { monotonic: 0, wall: HOUR }).away).toEqual({ from: 20, to: 3600 });
  expect(goOn({ at: 30, wall: 30_000 }, session, { monotonic: 0, wall: 130_000 }).away).toEqual({ from: 30, to: 130 });
  expect(goOn(undefined, { startWall: 0, lastAt: 0 }, { monotonic: 0, wall: HOUR }).away).toBeUndefined();
});

test('an entry from elsewhere moves the clock on and never back', () => {
  const anchor = takeUp(0, 0, { monotonic: 0, wall: 0 });
  const now = { monotonic: 10_000, wall: 10_000 };
  expect(sessionTime(movedOn(anchor, 50, now), { monotonic: 11_000, wall: 0 })).toBe(51);
  expect(movedOn(anchor, 5, now)).toBe(anchor);
});

test('what was kept and is no time is left', () => {
  expect(readKept('{"at":3,"wall":4}')).toEqual({ at: 3, wall: 4 });
  expect([null, '', 'null', '[]', '{"at":"3"}', '{"at":-1,"wall":4}'].map(readKept)).toEqual(Array(6).fill(undefined));
});

test('a sleep and a clock that was put are told apart', () => {
  const before = { monotonic: 0, wall: 0 };
  expect(clockNews(before, { monotonic: 1000, wall: 1010 }, 1000)).toEqual({ kind: 'together' });
  expect(clockNews(before, { monotonic: 1000, wall: HOUR }, 1000)).toEqual({
    kind: 'slept',
    seconds: 3599,
    ran: 1,
  });
  expect(clockNews(before, { monotonic: 1000, wall: -HOUR }, 1000)).toEqual({ kind: 'wall-put', seconds: -3601 });
});

test('a monotonic clock that leaps or runs through a sleep is told too, a slow look is not', () => {
  const before = { monotonic: 0, wall: 0 };
  expect(clockNews(before, { monotonic: HOUR, wall: 1000 }, 1000)).toEqual({ kind: 'leapt', seconds: 3600 });
  expect(clockNews(before, { monotonic: HOUR, wall: HOUR }, 1000)).toEqual({ kind: 'unwatched', seconds: 3600 });
  expect(clockNews(before, { monotonic: 61_000, wall: 61_000 }, 1000)).toEqual({ kind: 'together' });
});

test('what nobody saw can be made a pause: where the clock stood, once it is put on', () => {
  const anchor = takeUp(0, 0, { monotonic: 0, wall: 0 });
  const now = { monotonic: 101_000, wall: HOUR };
  const news = clockNews({ monotonic: 100_000, wall: 100_000 }, now, 1000);
  const slept = absenceOf(news, sessionTime(anchor, now), 50);
  expect(slept).toEqual({ from: 100, to: 3600, stood: 3499, reason: 'machine slept' });
  expect(sessionTime(putOn(anchor, slept?.stood ?? 0), now)).toBe(3600);
  expect(absenceOf(news, 101, 100.4)?.from).toBe(100.4);
  expect(absenceOf({ kind: 'unwatched', seconds: 600 }, 700, 0)).toMatchObject({ from: 100, to: 700, stood: 0 });
  expect(absenceOf({ kind: 'leapt', seconds: 600 }, 700, 0)).toMatchObject({ from: 100, to: 700, stood: 0 });
  expect(absenceOf({ kind: 'wall-put', seconds: 600 }, 700, 0)).toBeUndefined();
});

test('a pause never covers what was logged since', () => {
  const ranOn = { from: 100, to: 700, stood: 0, reason: 'page stood still' };
  expect(absenceSince(ranOn, [90])).toEqual(ranOn);
  expect(absenceSince(ranOn, [90, 300, 720])?.from).toBe(300);
  expect(absenceSince(ranOn, [700])).toBeUndefined();
  expect(absenceSince({ ...ranOn, stood: 500 }, [100])?.to).toBe(700);
  // Logged before it was found at 200, so before the clock stood; then something logged in the time that went on at once.
  expect(absenceSince({ ...ranOn, stood: 500 }, [120])?.from).toBe(120);
  expect(absenceSince({ ...ranOn, stood: 500 }, [120, 201])).toBeUndefined();
});

test('the face shows hours, minutes, seconds', () => {
  expect([0, 59.9, 2467, 36_000].map(clockFace)).toEqual(['0:00:00', '0:00:59', '0:41:07', '10:00:00']);
});

// Source: the check value of CRC-32/ISO-HDLC over "123456789" is cbf43926 (common practice; also in RFC 3385 terms, from memory).
test('the card reads back what it tells, and a misread one nothing', () => {
  expect(crc32('123456789')).toBe('cbf43926');
  const card = { session: 'm1', milliseconds: 2_467_300, wall: '2026-03-02T09:00:00.300+01:00', sequence: 24 };
  expect(readCard(cardText(card))).toEqual(card);
  expect(readCard(cardText(card).replace('2467300', '2467800'))).toBeUndefined();
  expect(readCard('hello')).toBeUndefined();
});
