import type { MissingFact } from '#quantity/explained';
import type { Assessment } from '#record/schema/assessment';
import { EFFECT_CODES, type EffectCell } from '#swaps/lineage/effect-table';
import { standingEffect } from '#swaps/lineage/lineage';
import type { Explanation } from '#swaps/model/explanation';
import { EXPLANATION_WORDS } from '#swaps/model/explanation-words';
import type { EffectCode } from '#swaps/model/swap-run';
import { judgedParts } from './judged-parts.ts';
import { SWAP_WORDS } from './swap-words.ts';
import { type JudgedPart, newestCell } from './what-does-it.ts';

/** What the part swaps of a role may still find, after their diagnosis: words of the metric `swap-finding`. */
export interface RoleFinding {
  readonly words: readonly string[];
  readonly missing: readonly MissingFact[];
  readonly evidence: readonly string[];
}

type Word = (typeof SWAP_WORDS)[number];

/** Which word of the rubric has each effect? */
const WORD_OF: Readonly<Record<EffectCode, Word>> = {
  E0: 'accepted',
  E1: 'history-entry',
  E2: 'notice',
  E3: 'lasting-notice',
  E4: 'reduced',
  E5: 'refused',
  E6: 'no-start',
  E7: 'lasting',
};

const BY_SOFTWARE: ReadonlySet<Explanation> = new Set([
  'pairing-reversible',
  'pairing-latching',
  'firmware-bug',
  'unfixed-bug',
  'donor-home-locked',
]);

/** What may the swaps of a record still find, by role, as a house rubric asks? Roles of which no part was swapped are left out. */
export const swapsForRubric = (assessment: Assessment): Readonly<Record<string, RoleFinding>> => {
  const found = new Map(judgedParts(assessment).map((judged) => [judged.part, rubricFinding(assessment, judged)]));
  const parts = Object.entries(assessment.parts ?? {}).filter(([, { absent }]) => absent !== true);
  const roles = new Set(parts.flatMap(([id, { role }]) => (found.has(id) && role !== undefined ? [role] : [])));
  return Object.fromEntries(
    [...roles].flatMap((role) => {
      const ofRole = parts.filter(([, part]) => part.role === role);
      const worst = worstOfRole(ofRole.map(([id, { name }]) => ({ name: name ?? id, finding: found.get(id) })));
      return worst ? [[role, worst] as const] : [];
    }),
  );
};

/**
 * What may the swaps of one part still find, as a house rubric asks? Whatever one of the standing explanations comes to: the effect
 * seen on the newest firmware where software does it, `reduced` where a calibration is missing (as fitted, before it is run),
 * `accepted` where a sound piece is taken and one was seen taken. All words where nothing was seen.
 */
export const rubricFinding = (assessment: Assessment, judged: JudgedPart): RoleFinding => {
  const cell = newestCell(judged);
  const possible = new Set(judged.standing.flatMap(({ explanation }) => wordsOf(explanation, cell)));
  const words = SWAP_WORDS.filter((word) => possible.size === 0 || possible.has(word));
  const name = assessment.parts?.[judged.part]?.name ?? judged.part;
  const stands = judged.standing.map(({ explanation }) => EXPLANATION_WORDS[explanation].name).join(', ');
  const missing: MissingFact = {
    address: 'swaps',
    what: `what the software makes of another ${name}${stands === '' ? '' : `: still standing: ${stands}`}`,
    remedy: 'make the runs that tell the standing explanations apart',
  };
  const seen = cell?.runs.flatMap((run) => assessment.swaps?.[run]?.evidence ?? []) ?? [];
  return { words, missing: words.length > 1 ? [missing] : [], evidence: [...new Set(seen)] };
};

const wordsOf = (explanation: Explanation, cell: EffectCell | undefined): readonly Word[] => {
  if (cell === undefined) return SWAP_WORDS;
  if (explanation === 'missing-calibration') return ['reduced'];
  if (!BY_SOFTWARE.has(explanation)) return cell.counts.E0 === undefined ? SWAP_WORDS : ['accepted'];
  const effect = standingEffect(cell);
  if (effect !== undefined && effect !== 'disagree') return [WORD_OF[effect]];
  return EFFECT_CODES.filter((code) => cell.counts[code] !== undefined).map((code) => WORD_OF[code]);
};

/**
 * What may the swaps of a role still find? Of several parts of the role the worst: any word that is no better than the best word
 * of every part. A part that nobody swapped leaves every word, and says so. Undefined where no part of the role was swapped.
 */
export const worstOfRole = (
  parts: readonly { readonly name: string; readonly finding: RoleFinding | undefined }[],
): RoleFinding | undefined => {
  if (parts.every(({ finding }) => finding === undefined)) return undefined;
  const findings = parts.map(({ name, finding }) => finding ?? unswapped(name));
  const best = (words: readonly string[]): number => Math.max(...words.map((word) => SWAP_WORDS.indexOf(word as Word)));
  const limit = Math.min(...findings.map(({ words }) => best(words)));
  const all = new Set(findings.flatMap(({ words }) => words));
  const words = SWAP_WORDS.filter((word, place) => place <= limit && all.has(word));
  return {
    words,
    missing: words.length > 1 ? findings.flatMap(({ missing }) => missing) : [],
    evidence: [...new Set(findings.flatMap(({ evidence }) => evidence))],
  };
};

const unswapped = (name: string): RoleFinding => ({
  words: SWAP_WORDS,
  missing: [
    {
      address: 'swaps',
      what: `what the software makes of another ${name}: it was not swapped`,
      remedy: 'swap the part between two specimens, both ways, with the refit control',
    },
  ],
  evidence: [],
});
