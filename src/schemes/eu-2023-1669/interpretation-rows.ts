import { clause } from './method.ts';

/** One row of the table of ambiguities: where in it, what is asked in our words, the clause, and how far it can move R. */
export interface InterpretationRow {
  readonly row: string;
  readonly id: string;
  readonly kind: 'switch' | 'fact' | 'none';
  /** Allowed values, the default first; for facts, what holds until it is established; empty for rows that need no choice. */
  readonly values: readonly string[];
  readonly question: string;
  /** What each value means, in words. */
  readonly meanings: Readonly<Record<string, string>>;
  readonly clause: string;
  /** How far the other reading can move a figure of a non-foldable. */
  readonly swing: string;
}

const counting = clause('Annex I (20) and Annex IV point 5, counting of steps');
const pointFive = clause('Annex IV point 5');

/**
 * Where may the assessor choose a reading? One entry a switch: default first, the question, the clause that leaves room,
 * the swing. Defaults are ours; the law leaves them open.
 */
export const SWITCH_ROWS = {
  'fasteners-as-parts': {
    row: '1',
    values: ['no', 'yes'],
    question: 'Are screws, strips and clips parts, so that each one taken out ends a step?',
    meanings: { no: 'fasteners are not parts', yes: 'each removed fastener or strip is a removal' },
    clause: counting,
    swing: 'up to four bands a part',
  },
  unplugging: {
    row: '2',
    values: ['with-the-part', 'by-itself'],
    question: 'Does unplugging a connector end a step of its own?',
    meanings: {
      'with-the-part': 'it counts when the part is then moved, as one step with it',
      'by-itself': 'it counts by itself',
    },
    clause: counting,
    swing: '1 to 3 steps on battery and display',
  },
  'cleaning-after-release': {
    row: '3',
    values: ['not-counted', 'counted'],
    question: 'Does removing residue count once the part is already free?',
    meanings: { 'not-counted': 'counting ends when the part is free', counted: 'it counts' },
    clause: counting,
    swing: '1 to 2 steps',
  },
  reheating: {
    row: '4',
    values: ['each', 'once-per-place'],
    question: 'Does warming the same place again count again?',
    meanings: { each: 'each heating counts', 'once-per-place': 'one heating a place counts' },
    clause: counting,
    swing: '1 to 4 steps',
  },
  'holding-aids': {
    row: '5',
    values: ['no-tools', 'tools'],
    question: 'Are fixtures, magnifiers and gloves tools in use?',
    meanings: { 'no-tools': 'they are no tools', tools: 'they are tools' },
    clause: clause('Annex I (43) and Annex IV point 5, tools used together'),
    swing: '1 to 2 steps',
  },
  'first-pick-up': {
    row: '6',
    values: ['no-change', 'change'],
    question: 'Is taking up the first tool a change of tool?',
    meanings: { 'no-change': 'no change of tool', change: 'a change of tool' },
    clause: counting,
    swing: '1 step',
  },
  'bare-hands': {
    row: '6',
    values: ['no-change', 'change'],
    question: 'Is going from a tool to bare hands a change of tool?',
    meanings: { 'no-change': 'no change of tool', change: 'a change of tool' },
    clause: counting,
    swing: '1 step each time',
  },
  'remote-pairing': {
    row: '7',
    values: ['two-actions', 'one-action'],
    question: 'Are remote notification and remote authorisation of one part two actions or one?',
    meanings: { 'two-actions': 'two actions, 5 steps each', 'one-action': 'one action, 5 steps' },
    clause: counting,
    swing: '1 to 2 bands',
  },
  'previous-priority-part': {
    row: '10',
    values: ['own-sequence', 'common-order'],
    question: "Where does a part's stretch for fasteners and tools begin?",
    meanings: {
      'own-sequence': "after the last priority part on the part's own sequence",
      'common-order': 'after the last priority part in one common teardown order',
    },
    clause: pointFive,
    swing: 'one rung of F or T a part',
  },
  'duplicated-part': {
    row: '11',
    values: ['lowest-per-parameter', 'lowest-instance'],
    question: 'Where a part is there more than once, is the lowest taken for each score or one instance for all three?',
    meanings: {
      'lowest-per-parameter': 'the lowest instance for each of the three scores',
      'lowest-instance': 'the instance lowest in all, for all three scores',
    },
    clause: pointFive,
    swing: 'one rung',
  },
  'tool-in-several-classes': {
    row: '12',
    values: ['best', 'worst'],
    question: 'Which class has a tool that fits several, for instance supplied with the spare and also on open sale?',
    meanings: { best: 'the best class it fits', worst: 'the worst class it fits' },
    clause: clause('Annex I (42) to (44), Annex IV point 5 and Annex IVa'),
    swing: 'T from 1 to 4',
  },
  'part-years': {
    row: '16',
    values: ['down', 'as-stated'],
    question: 'What becomes of a guarantee of years and a part-year, for instance six and a half years?',
    meanings: {
      down: 'part-years are rounded down',
      'as-stated': 'the figure is taken as stated; between two rows of the table it matches none',
    },
    clause: clause('Annex IV point 5, table of SSU'),
    swing: '0.30 a rung',
  },
  available: {
    row: '18',
    values: ['orderable', 'listed', 'delivered'],
    question: 'From when is a spare part available?',
    meanings: {
      orderable: 'orderable, shown by a dated attempt in one Member State',
      listed: 'listed',
      delivered: 'delivered',
    },
    clause: clause('Annex IV point 5, table of SSP'),
    swing: '0.15 a rung',
  },
  foldable: {
    row: '19',
    values: ['folding-display', 'hinge'],
    question: 'Which products take the foldable weights?',
    meanings: { 'folding-display': 'those with a folding display', hinge: 'those with a hinge or folding mechanism' },
    clause: clause('Annex IV point 5: SDD names the hinge, SF and ST the foldable product'),
    swing: 'the whole set of weights',
  },
  rounding: {
    row: '20',
    values: ['unrounded', 'rounded'],
    question: 'Is the class taken from R as computed or from R at two decimals?',
    meanings: { unrounded: 'from R as computed', rounded: 'from R rounded half-up to two decimals' },
    clause: clause('Annex II Table 4 and Annex IV point 5; no rounding rule is given for R'),
    swing: 'one class',
  },
  'failed-attempts': {
    row: 'new',
    values: ['no-step', 'counted'],
    question: 'Does an attempt that failed count as a step?',
    meanings: { 'no-step': 'it adds time, no step, fastener or tool', counted: 'it counts' },
    clause: counting,
    swing: '1 step and more',
  },
  'session-order': {
    row: 'new',
    values: ['needed-only', 'all-actions'],
    question: 'Do actions count that were done before a part came free but were not needed for it?',
    meanings: {
      'needed-only': 'actions not needed for the part are left out',
      'all-actions': 'all actions done before count',
    },
    clause: counting,
    swing: 'several bands a part',
  },
} as const satisfies Readonly<Record<string, Omit<InterpretationRow, 'id' | 'kind'>>>;

/** Which rows are facts to establish, kept open until they are? The value is what holds until then. */
export const FACT_ROWS: readonly InterpretationRow[] = [
  {
    row: '8',
    id: 'tray-needed',
    kind: 'fact',
    values: ['needed'],
    question: 'Did the card tray have to come out, or was it taken out by habit?',
    meanings: { needed: 'a card is installed at the start, so the tray is needed unless shown otherwise' },
    clause: counting,
    swing: '1 step on every part',
  },
  {
    row: '13',
    id: 'without-extra-cost',
    kind: 'fact',
    values: ['not-shown'],
    question: 'Do the tools or fasteners come with the spare at no extra cost?',
    meanings: { 'not-shown': 'not shown' },
    clause: clause('Annex I (18) and Annex IV point 5, table of Ti'),
    swing: 'one rung of T or F',
  },
  {
    row: '14',
    id: 'adhesive-with-spare',
    kind: 'fact',
    values: ['not-shown'],
    question: 'Does enough adhesive for reassembly come with the spare?',
    meanings: { 'not-shown': 'not shown, so removable' },
    clause: clause('Annex I (18) and (19)'),
    swing: '0.09 a rung on battery and display',
  },
  {
    row: '15',
    id: 'part-absent',
    kind: 'fact',
    values: ['present'],
    question: 'Is a part absent, or merged into another?',
    meanings: { present: 'present unless the function is missing; the other score is shown' },
    clause: pointFive,
    swing: '0.0125 to 0.05',
  },
  {
    row: '16',
    id: 'update-years',
    kind: 'fact',
    values: ['unknown'],
    question:
      'How many years of security, corrective and functionality updates are guaranteed from the end of placing on the market?',
    meanings: { unknown: 'unknown until the guarantee is shown' },
    clause: clause('Annex IV point 5, table of SSU'),
    swing: '0.30 a rung',
  },
  {
    row: '17',
    id: 'repair-information',
    kind: 'fact',
    values: ['not-shown'],
    question: 'Which of the eleven items of repair information are offered to whom and at what fee?',
    meanings: { 'not-shown': 'not shown until seen' },
    clause: clause('Annex IV point 5, table of SRI'),
    swing: '0.30 to 0.60',
  },
  {
    row: '22',
    id: 'damage-on-the-way',
    kind: 'fact',
    values: ['no-route'],
    question: 'Does a route that damages the product count as a route?',
    meanings: { 'no-route': 'it is no route; the assessor decides what counts as damage' },
    clause: clause('Annex I (15) and (17) to (19)'),
    swing: 'not scorable',
  },
];

/** Which rows are exposed without a choice? Shown side by side or noted once. */
export const NONE_ROWS: readonly InterpretationRow[] = [
  {
    row: '9',
    id: 'basis',
    kind: 'none',
    values: [],
    question: "Is the maker's documentation counted, or what the bench shows?",
    meanings: {},
    clause: clause('Annex IV point 5 and Annex VI point 1(c)'),
    swing: 'any; declared, observed and best found stand side by side',
  },
  {
    row: '21',
    id: 'misprint',
    kind: 'none',
    values: [],
    question: 'What is `TSCR` in the formula of ST?',
    meanings: {},
    clause: pointFive,
    swing: 'none: it is read as `TDA`, as the key says',
  },
];
