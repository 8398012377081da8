import { distance } from 'fastest-levenshtein';

const LONGEST = 80;
const MOST = 20_000;

/**
 * Which known name was probably meant? The nearest by edit distance, letter case aside, if it differs in at most a third
 * of its letters; of equally near ones the first in alphabetical order, so that the answer does not hang on order.
 */
export const closestName = (name: string, known: Iterable<string>): string | undefined => {
  if (name.length > LONGEST) return undefined;
  const wanted = simplify(name);
  let best: { readonly name: string; readonly edits: number } | undefined;
  let looked = 0;
  for (const candidate of known) {
    looked += 1;
    if (looked > MOST) break;
    if (Math.abs(candidate.length - name.length) > LONGEST / 3) continue;
    const edits = distance(wanted, simplify(candidate));
    if (edits > Math.max(1, Math.floor(Math.max(candidate.length, name.length) / 3))) continue;
    if (!best || edits < best.edits || (edits === best.edits && candidate < best.name))
      best = { name: candidate, edits };
  }
  return best?.name;
};

const simplify = (name: string): string => name.toLowerCase().replaceAll(/[_\s]/g, '-');

/** How is a remedy worded for an unknown name? With the name that was probably meant, else with what is possible. */
export const unknownNameRemedy = (name: string, known: readonly string[], otherwise: string): string => {
  const meant = closestName(name, known);
  return meant === undefined ? otherwise : `Did you mean "${meant}"?`;
};
