import {
  DEFAULT_INTERPRETATIONS,
  INTERPRETATION_TABLE,
  type Interpretations,
  SWITCH_IDS,
  type SwitchId,
} from '#schemes/eu-2023-1669/interpretations';
import { type Groundwork, type IndexBasis, indexBases } from './index-bases.ts';
import { lettersOf } from './letters.ts';
import type { InterpretationVerdict } from './verdict.ts';

/** One other reading of one switch, with the bases recomputed under it. */
export interface OtherReading {
  readonly id: SwitchId;
  readonly value: string;
  readonly readings: Interpretations;
  readonly bases: readonly IndexBasis[];
}

/** Every other reading of every switch, one at a time, with all bases recomputed. */
export const otherReadings = (groundwork: Groundwork, readings: Interpretations): readonly OtherReading[] =>
  SWITCH_IDS.flatMap((id) => {
    const row = INTERPRETATION_TABLE.find((candidate) => candidate.id === id);
    return (row?.values ?? [])
      .filter((value) => value !== readings[id])
      .map((value) => {
        const other = { ...readings, [id]: value } as Interpretations;
        return { id, value, readings: other, bases: indexBases(groundwork, other) };
      });
  });

/** The table of interpretations with what each other reading would change here. */
export const interpretationVerdicts = (
  as: {
    readonly readings: Interpretations;
    readonly bases: readonly IndexBasis[];
    readonly reasons: Readonly<Record<string, string | undefined>>;
  },
  others: readonly OtherReading[],
): readonly InterpretationVerdict[] =>
  INTERPRETATION_TABLE.flatMap((row): readonly InterpretationVerdict[] => {
    if (row.kind === 'none') return [];
    if (row.kind === 'fact')
      return [
        {
          row: row.row,
          id: row.id,
          kind: 'fact' as const,
          question: row.question,
          value: row.values[0] ?? '',
          isDefault: true,
          others: [],
        },
      ];
    const id = row.id as SwitchId;
    const reason = as.reasons[id];
    return [
      {
        row: row.row,
        id,
        kind: 'switch' as const,
        question: row.question,
        value: as.readings[id],
        isDefault: as.readings[id] === DEFAULT_INTERPRETATIONS[id],
        ...(reason === undefined ? {} : { reason }),
        others: others
          .filter((other) => other.id === id)
          .map((other) => ({ value: other.value, ...effectOf(as, other) })),
      },
    ];
  });

/** What changes under another reading, basis by basis, in words? */
const effectOf = (
  as: { readonly readings: Interpretations; readonly bases: readonly IndexBasis[] },
  other: OtherReading,
): { readonly effect: string; readonly changesLetter: boolean } => {
  const changes = as.bases.flatMap((basis) => {
    const then = other.bases.find((candidate) => candidate.basis === basis.basis);
    if (!then) return [];
    const words = changesOf(basis, then);
    const letters = [lettersOf(basis, as.readings), lettersOf(then, other.readings)].map((list) => list.join(' or '));
    const letter = letters[0] === letters[1] ? [] : [`letter ${letters[0] || 'none'} → ${letters[1] || 'none'}`];
    return words.length + letter.length === 0 ? [] : [`${basis.basis}: ${[...words, ...letter].join(', ')}`];
  });
  return {
    effect: changes.length === 0 ? 'nothing here' : changes.join('; '),
    changesLetter: changes.some((change) => change.includes('letter ')),
  };
};

const rangeWords = (basis: IndexBasis): string =>
  basis.low?.R && basis.high?.R && basis.low.R !== basis.high.R
    ? `${basis.low.R} to ${basis.high.R}`
    : (basis.figures.R ?? 'not scorable');

const changesOf = (basis: IndexBasis, then: IndexBasis): readonly string[] => {
  const parts = Object.entries(basis.figures.parts).flatMap(([role, figures]) => {
    const other = then.figures.parts[role];
    if (!other || other.steps === figures.steps) return [];
    return [`${role.replaceAll('-', ' ')} ${figures.steps ?? 'open'} → ${other.steps ?? 'open'} steps`];
  });
  const before = rangeWords(basis);
  const after = rangeWords(then);
  return before === after ? parts : [...parts, `R ${before} → ${after}`];
};
