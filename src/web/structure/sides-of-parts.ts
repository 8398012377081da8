import { entrySides } from '#record/log/entry-sides';
import type { SidesOfParts } from '#report/depth/depth-model';
import type { Verdict } from '#verdict/verdict';
import type { ReviewSource } from './review-source.ts';

/** Under which face does every part lie by its best route, and from which others can it be reached too? */
export const sidesOfParts = (source: ReviewSource, verdict: Verdict | undefined): SidesOfParts => {
  const blocking = new Map((verdict?.parts ?? []).map((part) => [part.part, part.blocking ?? []]));
  return new Map(
    [...source.device.parts.keys()].map((part) => {
      const off = (blocking.get(part) ?? []).flatMap((id) => [id, ...(source.device.parts.get(id)?.cluster ?? [])]);
      return [part, entrySides(part, new Set(off), source)];
    }),
  );
};
