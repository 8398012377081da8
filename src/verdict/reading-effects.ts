import {
  DEFAULT_INTERPRETATIONS,
  INTERPRETATION_TABLE,
  type Interpretations,
  SWITCH_IDS,
  type SwitchId,
} from '#schemes/eu-2023-1669/interpretations';
import { type Groundwork, type IndexBasis, indexBases } from './index-bases.ts';
import type { HeldReading } from './laboratory/with-laboratory.ts';
import { lettersOf } from './letters.ts';
import type { Change, InterpretationVerdict, ReadingChange } from './verdict.ts';

/** One other reading of one switch, with the bases recomputed under it. */
export interface OtherReading {
  readonly id: SwitchId;
  readonly value: string;
  readonly readings: Interpretations;
  readonly bases: readonly IndexBasis[];
}

/** Every other reading of every switch, one at a time, with all bases recomputed; each when it is asked for. */
export function* otherReadings(groundwork: Groundwork, readings: Interpretations): Generator<OtherReading> {
  for (const id of SWITCH_IDS) {
    const row = INTERPRETATION_TABLE.find((candidate) => candidate.id === id);
    for (const value of row?.values ?? []) {
      if (value === readings[id]) continue;
      const other = { ...readings, [id]: value } as Interpretations;
      yield { id, value, readings: other, bases: indexBases(groundwork, other) };
    }
  }
}

/** The table of interpretations with what each other reading would change here. */
export const interpretationVerdicts = (
  as: {
    readonly readings: Interpretations;
    readonly bases: readonly IndexBasis[];
    readonly reasons: Readonly<Record<string, string | undefined>>;
    readonly laboratory: ReadonlyMap<string, HeldReading>;
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
    const held = as.laboratory.get(id);
    return [
      {
        row: row.row,
        id,
        kind: 'switch' as const,
        question: row.question,
        value: as.readings[id],
        isDefault: as.readings[id] === DEFAULT_INTERPRETATIONS[id],
        ...(reason === undefined ? {} : { reason }),
        ...(held ? { laboratory: held } : {}),
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
): Omit<InterpretationVerdict['others'][number], 'value'> => {
  const told: string[] = [];
  const changes: ReadingChange[] = [];
  for (const basis of as.bases) {
    const then = other.bases.find((candidate) => candidate.basis === basis.basis);
    if (!then) continue;
    const letters = { from: lettersOf(basis, as.readings), to: lettersOf(then, other.readings) };
    const [from, to] = [endsOf(basis), endsOf(then)];
    const change: ReadingChange = {
      basis: basis.basis,
      ...(from.low === to.low ? {} : { low: { from: from.low, to: to.low } }),
      ...(from.high === to.high ? {} : { high: { from: from.high, to: to.high } }),
      ...(letters.from.join() === letters.to.join() ? {} : { letters }),
      ...(basis.mayBeNotScorable === then.mayBeNotScorable
        ? {}
        : { mayBeNotScorable: { from: basis.mayBeNotScorable, to: then.mayBeNotScorable } }),
    };
    const words = [...stepChanges(basis, then), ...changeWords(change, { from, to })];
    if (words.length > 0) told.push(`${basis.basis}: ${words.join(', ')}`);
    if (change.low || change.high || change.letters || change.mayBeNotScorable) changes.push(change);
  }
  return {
    effect: told.length === 0 ? 'nothing here' : told.join('; '),
    changesLetter: changes.some(({ letters }) => letters !== undefined),
    changes,
  };
};

type Ends = { readonly [end in 'low' | 'high']: string | null };

const endsOf = ({ low, high, figures }: IndexBasis): Ends => ({ low: (low ?? figures).R, high: (high ?? figures).R });

const changeWords = (change: ReadingChange, { from, to }: Change<Ends>): readonly string[] => [
  ...(change.low || change.high ? [`R ${rangeWords(from)} → ${rangeWords(to)}`] : []),
  ...letterChangeWords(change),
];

/** What happens to the letter under another reading, and to whether there is one? No words where nothing does. */
export const letterChangeWords = ({ letters, mayBeNotScorable }: ReadingChange): readonly string[] => {
  const isGone = letters?.to.length === 0;
  return [
    ...(letters ? [`letter ${letters.from.join(' or ') || 'none'} → ${letters.to.join(' or ') || 'none'}`] : []),
    ...(mayBeNotScorable && !isGone ? [mayBeNotScorable.to ? 'may be not scorable' : 'scorable for certain'] : []),
  ];
};

const rangeWords = ({ low, high }: Ends): string =>
  low === high ? endWords(low) : `${endWords(low)} to ${endWords(high)}`;

const endWords = (end: string | null): string => end ?? 'not scorable';

const stepChanges = (basis: IndexBasis, then: IndexBasis): readonly string[] =>
  Object.entries(basis.figures.parts).flatMap(([role, figures]) => {
    const other = then.figures.parts[role];
    if (!other || other.steps === figures.steps) return [];
    return [`${role.replaceAll('-', ' ')} ${figures.steps ?? 'open'} → ${other.steps ?? 'open'} steps`];
  });
