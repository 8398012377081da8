import type { Place } from '#verdict/rescore/places';
import { type ChangeSplit, type EndSplit, FACTORS, type ScoreEnds } from '#verdict/rescore/split-change';
import { exactValue, roundedText } from '#verdict/rubric/exact-text';

/** How does a score read? `64.5`, `60.1 to 72.4`, `none`; with a remark where it may turn out that nothing applies. */
export const scoreText = ({ shown, mayBeNone }: ScoreEnds): string => {
  if (!shown) return 'none';
  const span = shown.low === shown.high ? shown.low : `${shown.low} to ${shown.high}`;
  return mayBeNone ? `${span} or none` : span;
};

/** How does a place read? `3`, `2 to 5`, `none`. */
export const placeText = (place: Place | undefined): string => {
  if (!place) return 'none';
  return place.best === place.worst ? String(place.best) : `${place.best} to ${place.worst}`;
};

/** How does a part of a change read? With its sign, two decimals: `+5.13`, `−0.63`, `0`. */
export const signedText = (exact: string): string => {
  const { numerator } = exactValue(exact);
  if (numerator === 0n) return '0';
  const text = roundedText(exact, 2);
  if (Number(text) === 0) return numerator > 0n ? '+0.00' : '−0.00';
  return numerator > 0n ? `+${text}` : text.replace('-', '−');
};

/** How does a change read, split? One line where both ends changed alike, else one for each end; says so where it cannot be. */
export const splitText = ({ low, high, before, after }: ChangeSplit): readonly string[] => {
  if (!low || !high) return [before.low === undefined || after.low === undefined ? NO_SCORE : NO_WAY];
  const [lowText, highText] = [endText(low), endText(high)];
  return lowText === highText ? [lowText] : [`lowest end ${lowText}`, `highest end ${highText}`];
};

/** How do the parts of each criterion and of the caps read, where they were asked for? A line each and end, ends alike once. */
export const criterionText = ({ low, high }: ChangeSplit): readonly string[] => {
  const linesOf = (end: EndSplit | undefined): readonly string[] =>
    Object.entries(end?.by ?? {}).map(([name, parts]) => {
      const words = FACTORS.flatMap((factor) =>
        parts[factor] === undefined ? [] : [`${factor} ${signedText(parts[factor])}`],
      );
      return `${name}: ${words.join(', ')}`;
    });
  const [least, most] = [linesOf(low), linesOf(high)];
  if (least.join() === most.join()) return least;
  return [...least.map((line) => `lowest end, ${line}`), ...most.map((line) => `highest end, ${line}`)];
};

const NO_SCORE = 'no change to split: there is no score before or after it';
const NO_WAY = 'the change cannot be split: on every way between the two no criterion applies somewhere';

const endText = (end: EndSplit): string => {
  const parts = FACTORS.filter((factor) => end[factor] !== '0').map((factor) => `${factor} ${signedText(end[factor])}`);
  return parts.length === 0 ? 'unchanged' : `${signedText(end.change)} = ${parts.join(', ')}`;
};
