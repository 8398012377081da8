import { CONSOLIDATED, SCHEME } from '#schemes/eu-2023-1669/method';
import type { ScopeVerdict } from '#schemes/eu-2023-1669/scope';
import { groundworkOf, type IndexBasis, indexBases, readingsOf } from '#verdict/index-bases';
import { scopeVerdict } from '#verdict/scope-verdict';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { exitCodes } from '../exit-codes.ts';
import { laboratoryForm, laboratoryOption, requireRecord } from '../laboratory-option.ts';
import { scopeLines } from '../scope-lines.ts';

/** Adds `unfasten index`: the EU repairability index on its three bases, with the width of each. */
export const configureIndex: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .addOption(laboratoryOption())
    .option(
      '--json',
      'print {"scheme", "consolidated", "bases": {"declared" | "observed" | "best": …}}; "scope" where it is open',
    )
    .addHelpText(
      'after',
      examplesText([
        [
          'unfasten index examples/tarn-5',
          'R, its scores and its class on each basis, lowest to highest where something is open',
        ],
        ['unfasten index examples/tarn-5 --json', 'the same for other programs; null is open or not scorable, never 0'],
        [
          'unfasten index examples/quick-log',
          'scope open: names what is missing, and gives the index it has if it is in scope',
        ],
        ['unfasten index examples/gust-2', 'out of scope: says by which article, and ends with code 1'],
      ]),
    )
    .action((path: string, options: IndexOptions) => runIndex(path, options, context));
};

interface IndexOptions {
  readonly laboratory?: string;
  readonly json?: boolean;
}

const runIndex = (path: string, { laboratory, json }: IndexOptions, context: CommandContext): void => {
  const progress = context.startProgress('index');
  try {
    const record = requireRecord(path, laboratory);
    const { assessment } = record;
    const scope = scopeVerdict(assessment);
    if (scope.inScope === false) {
      if (json) context.output.json({ outOfScope: scope.outOfScope, article: scope.article });
      else context.output.line(`Out of scope: ${scope.outOfScope} (${scope.article}).`);
      context.finish(exitCodes.recordHasProblems);
      return;
    }
    const bases = indexBases(groundworkOf(assessment), readingsOf(assessment));
    progress.stop();
    if (json) context.output.json({ ...laboratoryForm(record), ...indexForm(bases, scope) });
    else for (const line of [...scopeLines(scope), ...record.lines, ...indexLines(bases)]) context.output.line(line);
  } finally {
    progress.stop();
  }
};

/** The index as JSON; what is open of the scope, and where the maker's documents contradict each other, only where it is so. */
const indexForm = (bases: readonly IndexBasis[], scope: ScopeVerdict): Readonly<Record<string, unknown>> => {
  const contradictions = bases.flatMap((basis) => basis.inputs?.disagreements ?? []);
  return {
    scheme: SCHEME,
    consolidated: CONSOLIDATED,
    ...(scope.inScope === 'open' ? { scope } : {}),
    bases: Object.fromEntries(bases.map((basis) => [basis.basis, basisForm(basis)])),
    ...(contradictions.length > 0 ? { contradictions } : {}),
  };
};

/** One basis as JSON: the figures, and whole forms of the lowest and highest still possible where something is open. */
const basisForm = (basis: IndexBasis): Readonly<Record<string, unknown>> => ({
  ...basis.figures,
  ...(basis.low ? { low: basis.low } : {}),
  ...(basis.high ? { high: basis.high } : {}),
  ...(basis.mayBeNotScorable ? { mayBeNotScorable: true } : {}),
});

const ended = (value: string | null | undefined): string => value ?? 'open';

/** The index as a small table: a line a figure, a column a basis. */
export const indexLines = (bases: readonly IndexBasis[]): readonly string[] => {
  const cell = (
    basis: IndexBasis,
    pick: (form: IndexBasis['figures']) => string | number | null | undefined,
  ): string => {
    const low = pick(basis.low ?? basis.figures);
    const high = pick(basis.high ?? basis.figures);
    if (low === high) return ended(low === null || low === undefined ? low : String(low));
    return `${ended(low === null || low === undefined ? null : String(low))} to ${ended(high === null || high === undefined ? null : String(high))}`;
  };
  const row = (label: string, pick: (form: IndexBasis['figures']) => string | number | null | undefined): string =>
    [label.padEnd(26), ...bases.map((basis) => cell(basis, pick).padEnd(20))].join('').trimEnd();
  const roles = [...new Set(bases.flatMap((basis) => Object.keys(basis.figures.parts)))];
  const below = bases.flatMap((basis) =>
    basis.figures.notScorable.map(({ what, why }) => `  ${basis.basis}: ${what}: ${why}`),
  );
  const contradictions = bases.flatMap((basis) =>
    (basis.inputs?.disagreements ?? []).map(({ path, text }) => `  ${path}: ${text}`),
  );
  return [
    `${SCHEME}, state ${CONSOLIDATED}. Assessor's determination.`,
    '',
    ['basis'.padEnd(26), ...bases.map((basis) => basis.basis.padEnd(20))].join('').trimEnd(),
    row('R', (form) => form.R),
    row('class, R unrounded', (form) => form.classUnrounded),
    row('class, R rounded', (form) => form.classRounded),
    ...(['SDD', 'SF', 'ST', 'SSP', 'SSU', 'SRI'] as const).map((score) => row(score, (form) => form.scores[score])),
    ...roles.flatMap((role) => [
      stepsRow(role, bases),
      row('  points DD F T', (form) => pointsWords(form.parts[role])),
    ]),
    ...(below.length > 0 ? ['', 'Not scorable:', ...below] : []),
    ...(contradictions.length > 0 ? ['', "The maker's documents contradict each other:", ...contradictions] : []),
  ];
};

/** Steps read from few to many, though the fewest belong to the highest index. */
const stepsRow = (role: string, bases: readonly IndexBasis[]): string => {
  const cells = bases.map((basis) => {
    const most = (basis.low ?? basis.figures).parts[role]?.steps ?? null;
    const fewest = (basis.high ?? basis.figures).parts[role]?.steps ?? null;
    return most === fewest ? ended(most === null ? null : String(most)) : `${fewest ?? 'open'} to ${most ?? 'open'}`;
  });
  return [`${role.replaceAll('-', ' ')}: steps`.padEnd(26), ...cells.map((cell) => cell.padEnd(20))].join('').trimEnd();
};

const pointsWords = (
  part: { readonly DD: number | null; readonly F: number | null; readonly T: number | null } | undefined,
): string => (part ? [part.DD, part.F, part.T].map((points) => points ?? 'open').join(' ') : '');
