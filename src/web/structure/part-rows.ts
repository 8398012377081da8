import { depthOf, depthWords, type SidesOfParts } from '#report/depth/depth-model';
import type { PartVerdict, Verdict } from '#verdict/verdict';
import { nameOf, type ReviewSource, sightWords } from './review-source.ts';

/** One part in words: the same as the picture says, and what its question was answered. */
export interface PartRow {
  readonly part: string;
  readonly name: string;
  readonly steps: string;
  readonly face: string;
  readonly after: string;
  readonly sight: string;
  readonly isAnswered: boolean;
}

/** What does the picture say, in words? Every part of the record, shallow first; those without a depth last. */
export const partRows = (
  source: ReviewSource,
  verdict: Verdict | undefined,
  sides: SidesOfParts,
): readonly PartRow[] => {
  const found = new Map((verdict?.parts ?? []).map((part) => [part.part, part]));
  const faces = new Map((verdict?.faces ?? []).map((one) => [one.id, one.name]));
  const depth = (id: string): number => {
    const part = found.get(id);
    return (part && depthOf(part)?.step) ?? Number.MAX_SAFE_INTEGER;
  };
  return [...source.device.parts.keys()]
    .sort((a, b) => depth(a) - depth(b))
    .map((id) => {
      const part = found.get(id);
      const behind = source.document.parts?.[id]?.behind;
      return {
        part: id,
        name: nameOf(source, id),
        steps: part ? depthWords(part) : 'not known',
        face: faceWords(sides.get(id), faces),
        after: afterWords(source, part),
        sight: sightWords(source, behind),
        isAnswered: behind !== undefined,
      };
    });
};

const faceWords = (
  sides: { readonly place: string | undefined; readonly others: readonly string[] } | undefined,
  faces: ReadonlyMap<string, string>,
): string => {
  const also = (sides?.others ?? []).flatMap((side) => faces.get(side) ?? []);
  const place = faces.get(sides?.place ?? '') ?? 'not known';
  return also.length === 0 ? place : `${place}, also ${also.join(' and ')}`;
};

const afterWords = (source: ReviewSource, part: PartVerdict | undefined): string => {
  if (part?.after !== undefined) return nameOf(source, part.after);
  return part?.depth.shown === undefined ? 'not known' : 'nothing';
};

/** One part or fastener that a question may be asked of. */
export interface Asked {
  readonly subject: string;
  readonly isAnswered: boolean;
}

/** Which part or fastener nobody answered for comes next after one, going round? */
export const nextUnanswered = (asked: readonly Asked[], subject: string | undefined): string | undefined => {
  const from = asked.findIndex((one) => one.subject === subject);
  return [...asked.slice(from + 1), ...asked.slice(0, Math.max(0, from))].find(({ isAnswered }) => !isAnswered)
    ?.subject;
};
