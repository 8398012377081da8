import { FACT_ROWS, type InterpretationRow, NONE_ROWS, SWITCH_ROWS } from './interpretation-rows.ts';

/** Which readings can be chosen? The id of each switch. */
export type SwitchId = keyof typeof SWITCH_ROWS;

/** A complete set of readings: one value a switch. */
export type Interpretations = { readonly [id in SwitchId]: (typeof SWITCH_ROWS)[id]['values'][number] };

/** All ids of switches, in the order of the table. */
export const SWITCH_IDS = Object.keys(SWITCH_ROWS) as readonly SwitchId[];

const switchRows = SWITCH_IDS.map((id): InterpretationRow => ({ ...SWITCH_ROWS[id], id, kind: 'switch' }));

const order = (row: InterpretationRow): number => (row.row === 'new' ? 100 : Number(row.row));

/** The whole table of ambiguities, by row: switches to choose, facts to establish, and rows that need no choice. */
export const INTERPRETATION_TABLE: readonly InterpretationRow[] = [...switchRows, ...FACT_ROWS, ...NONE_ROWS].sort(
  (a, b) => order(a) - order(b),
);

/** Which readings hold when nobody chose otherwise? The first value of each switch. */
export const DEFAULT_INTERPRETATIONS = Object.fromEntries(
  SWITCH_IDS.map((id) => [id, SWITCH_ROWS[id].values[0]]),
) as unknown as Interpretations;

/** What is wrong with a chosen reading, and what would be allowed instead? */
export interface InterpretationProblem {
  readonly id: string;
  readonly value: string;
  readonly problem: 'unknown-id' | 'not-a-switch' | 'unknown-value';
  readonly allowed: readonly string[];
}

const problemOf = (id: string, value: string): InterpretationProblem | undefined => {
  const row = INTERPRETATION_TABLE.find((candidate) => candidate.id === id);
  if (!row) return { id, value, problem: 'unknown-id', allowed: SWITCH_IDS };
  if (row.kind !== 'switch') return { id, value, problem: 'not-a-switch', allowed: SWITCH_IDS };
  if (!row.values.includes(value)) return { id, value, problem: 'unknown-value', allowed: row.values };
  return undefined;
};

/**
 * Which readings hold, given what was chosen? Every switch not chosen takes its default; a choice that is none is listed
 * with what is allowed, and its switch keeps the default. All problems are given at once.
 */
export const resolveInterpretations = (
  chosen: Readonly<Record<string, string>>,
): { readonly interpretations: Interpretations; readonly problems: readonly InterpretationProblem[] } => {
  const entries = Object.entries(chosen);
  const problems = entries.flatMap(([id, value]) => problemOf(id, value) ?? []);
  const bad = new Set(problems.map((problem) => problem.id));
  const good = Object.fromEntries(entries.filter(([id]) => !bad.has(id)));
  return { interpretations: { ...DEFAULT_INTERPRETATIONS, ...good } as Interpretations, problems };
};
