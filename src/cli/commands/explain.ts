import { type Explained, showFigure, showWithUnit } from '#quantity/explained';
import { isUnfastenError, UnfastenError } from '#quantity/unfasten-error';
import type { Assessment } from '#record/schema/assessment';
import { clockText } from '#report/words/durations';
import type { DutyFinding } from '#schemes/duties/duty-finding';
import { indexClasses } from '#schemes/eu-2023-1669/evaluate-index';
import { SCORES } from '#schemes/eu-2023-1669/weights';
import { dutiesOf } from '#verdict/duties/duties-of';
import { dutyDays } from '#verdict/duties/duty-days';
import { BASES, groundworkOf, type IndexBasis, indexBases, readingsOf } from '#verdict/index-bases';
import { recordLog } from '#verdict/record-log';
import { scoreByRubric } from '#verdict/rubric/score-by-rubric';
import { scopeVerdict } from '#verdict/scope-verdict';
import { swapTree } from '#verdict/swaps/swap-tree';
import { swapsOf } from '#verdict/swaps/swaps-of';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { dutyLines } from '../duty-lines.ts';
import { exitCodes } from '../exit-codes.ts';
import { laboratoryOption, type ReadRecord, requireRecord } from '../laboratory-option.ts';
import { type FigurePlaces, type NamedFigure, namedFigures } from '../named-figures.ts';
import { requireRubric } from '../read-rubric-file.ts';
import { scopeLines } from '../scope-lines.ts';
import { choiceWords } from '../swaps-options.ts';

/** Adds `unfasten explain`: why is a figure what it is, down to clause, inputs and evidence? */
export const configureExplain: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .argument(
      '[figure]',
      'path of a figure, such as observed/SDD/battery; without a basis, on every basis that has it; swaps/…, rubric/… or duties/… for the rest',
      'best',
    )
    .option('--rubric <file>', 'house rubric as a YAML or JSON file (Quayside general)')
    .addOption(laboratoryOption())
    .option('--json', 'print the tree as JSON; without a basis, a list of path and tree')
    .option('--depth <levels>', 'how many levels to print (all)')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten explain examples/tarn-5 best', 'R on the best-found basis, with everything it is made of'],
        ['unfasten explain examples/tarn-5 observed/SDD/battery', 'why the battery counts as many steps as it does'],
        ['unfasten explain examples/tarn-5 SDD --depth 1', 'the disassembly depth on each basis, one below the other'],
        ['unfasten explain examples/tarn-5 parts.battery.steps', 'dots do as well as /, and the order is free'],
        ['unfasten explain examples/tarn-5 best/SF --depth 2', 'the fastener score, two levels down'],
        ['unfasten explain examples/tarn-5 swaps/coil', 'what the software makes of a foreign coil, and by which runs'],
        [
          'unfasten explain examples/gust-2 rubric/battery-price',
          'a criterion of the house score, at both of its ends',
        ],
        ['unfasten explain examples/tarn-5 duties/br-no-software-lock', 'a legal duty, on which facts and evidence'],
      ]),
    )
    .action((path: string, figure: string, options: ExplainOptions) =>
      runExplain({ path, figure, ...options }, context),
    );
};

interface ExplainOptions {
  readonly json?: boolean;
  readonly depth?: string;
  readonly rubric?: string;
  readonly laboratory?: string;
}

type Asked = ExplainOptions & { readonly path: string; readonly figure: string };

const runExplain = (asked: Asked, context: CommandContext): void => {
  const depth = depthOf(asked.depth);
  const record = requireRecord(asked.path, asked.laboratory);
  if (rootOf(asked.figure) === 'duties') {
    printDuties(askedDuties(record, asked.figure), { ...asked, record }, context);
    return;
  }
  const scope = scopeVerdict(record.assessment);
  const bases =
    scope.inScope === false ? [] : indexBases(groundworkOf(record.assessment), readingsOf(record.assessment));
  const places = placesOf(record, asked, bases);
  const figures = figuresOrNone(places, asked.figure);
  if (figures === undefined && places.more().includes(`duties/${asked.figure}`)) {
    printDuties(askedDuties(record, `duties/${asked.figure}`), { ...asked, record }, context);
    return;
  }
  if (figures === undefined && scope.inScope === false && isOfIndex(asked.figure)) {
    sayOutOfScope(scope, asked, context);
    return;
  }
  const found = figures ?? namedFigures(places, asked.figure);
  const above = found.some(({ path }) => isOfIndex(path)) ? scopeLines(scope) : [];
  const entryOf = entryPlaces(record.assessment);
  printFigures(
    found,
    { ...asked, levels: depth, entryOf, endsOf: endsOf(bases), above: [...above, ...record.lines] },
    context,
  );
};

/** Does a path name a basis or a score of the index? */
const isOfIndex = (path: string): boolean =>
  path.split(/[/.]/).some((id) => (BASES as readonly string[]).includes(id) || INDEX_IDS.includes(id));

const INDEX_IDS = ['R', 'parts', 'SDD', 'SF', 'ST', 'SSP', 'SSU', 'SRI', 'class-unrounded', 'class-rounded'];

const sayOutOfScope = (
  { outOfScope, article }: Extract<ReturnType<typeof scopeVerdict>, { readonly inScope: false }>,
  { json }: Asked,
  context: CommandContext,
): void => {
  if (json) context.output.json({ outOfScope, article });
  else context.output.line(`Out of scope: ${outOfScope} (${article}).`);
  context.finish(exitCodes.recordHasProblems);
};

const rootOf = (path: string): string | undefined => path.split(/[/.]/)[0];

/** The figures, or none where the path names none: whoever asks decides what is then said. */
const figuresOrNone = (places: FigurePlaces, figure: string): readonly NamedFigure[] | undefined => {
  try {
    return namedFigures(places, figure);
  } catch (error) {
    if (isUnfastenError(error, 'usage')) return undefined;
    throw error;
  }
};

/** Trees are worked out when they are asked for, each once. */
const placesOf = ({ assessment }: ReadRecord, { rubric }: Asked, bases: readonly IndexBasis[]): FigurePlaces => {
  const swaps = once(() => swapsOf(assessment));
  return {
    bases: bases.map(({ basis, tree }) => ({ root: basis, tree, beside: indexClasses(tree) })),
    others: {
      swaps: once(() => {
        const found = swaps();
        return found && swapTree(found);
      }),
      rubric: once(() => scoreByRubric({ assessment, rubric: requireRubric(rubric) }).tree),
    },
    more: once(() => dutiesOf(assessment).map(({ id }) => `duties/${id}`)),
  };
};

const once = <T>(find: () => T): (() => T) => {
  let known: { readonly value: T } | undefined;
  return () => {
    known ??= { value: find() };
    return known.value;
  };
};

/** The duties that a path under `duties` names: all of them, or one by its id. Throws where there is none of that id. */
const askedDuties = ({ assessment }: ReadRecord, figure: string): readonly DutyFinding[] => {
  const id = figure.split(/[/.]/).filter(Boolean)[1];
  const all = dutiesOf(assessment);
  const found = id === undefined ? all : all.filter((duty) => duty.id === id);
  if (found.length > 0) return found;
  const ids = all.map((duty) => duty.id);
  throw new UnfastenError('usage', 'There is no such duty', {
    where: figure,
    value: id,
    remedy: choiceWords(id ?? '', ids),
  });
};

const printDuties = (
  duties: readonly DutyFinding[],
  { json, record }: Asked & { readonly record: ReadRecord },
  { output }: CommandContext,
): void => {
  const { product } = record.assessment;
  const [only, ...others] = duties.map((duty) => ({ ...duty, days: dutyDays(duty.id, product) }));
  if (json) output.json(others.length === 0 ? only : [only, ...others]);
  else for (const line of [...record.lines, ...duties.flatMap((duty) => dutyLines(duty, product))]) output.line(line);
};

const printFigures = (
  figures: readonly NamedFigure[],
  asked: Asked & Printing & { readonly above: readonly string[] },
  { output }: CommandContext,
): void => {
  const [only, ...others] = figures;
  const whole = only !== undefined && others.length === 0 && rootOf(asked.figure) === rootOf(only.path);
  if (asked.json) {
    output.json(whole ? only.node : figures);
    return;
  }
  const lines = whole ? figureLines(only, asked) : figures.flatMap((figure) => headedLines(figure, asked));
  for (const line of [...asked.above, ...lines]) output.line(line);
};
const depthOf = (text: string | undefined): number => {
  if (text === undefined) return Number.POSITIVE_INFINITY;
  const levels = Number(text);
  if (Number.isInteger(levels) && levels >= 0) return levels;
  throw new UnfastenError('usage', 'The depth is no number of levels', {
    where: '--depth',
    value: text,
    remedy: 'Write a whole number from 0.',
  });
};

/** A tree under its whole path, so that the basis heads it. */
const headedLines = ({ path, node }: NamedFigure, printing: Printing): readonly string[] => [
  `${path}:`,
  ...figureLines({ path, node }, printing, '  '),
  '',
];

/** A tree, with how far its figure may still move. */
const figureLines = ({ path, node }: NamedFigure, printing: Printing, indent = ''): readonly string[] => {
  const ends = printing.endsOf.get(path);
  const [head = '', ...rest] = explainLines(node, printing, indent);
  return [head, ...(ends === undefined ? [] : [`${indent}  ${ends}`]), ...rest];
};

/** How a tree is printed: levels below the figure, and what a log entry of an address says. */
interface Printing {
  readonly levels: number;
  readonly entryOf: ReadonlyMap<string, string>;
  /** How far a figure of the index may still move, by its path. */
  readonly endsOf: ReadonlyMap<string, string>;
}

/** How far may R and each score of a basis still move? One line each, where something open moves it. */
const endsOf = (bases: readonly IndexBasis[]): ReadonlyMap<string, string> =>
  new Map(
    bases.flatMap(({ basis, low, high, mayBeNotScorable }) => {
      if (low === undefined || high === undefined) return [];
      const below = mayBeNotScorable ? '; R may also be not scorable' : '';
      const line = (path: string, [from, to]: readonly (string | null | undefined)[]): [string, string][] =>
        from === to || from == null || to == null
          ? []
          : [[path, `from ${from} to ${to} by what is open${below}; unfasten bounds --witness names the answers`]];
      const scores = SCORES.flatMap((score) => line(`${basis}/${score}`, [low.scores[score], high.scores[score]]));
      return [...line(basis, [low.R, high.R]), ...scores];
    }),
  );

/** When was each entry of the log made, what does it say, who was at the bench, and what shows it? By its address. */
const entryPlaces = (assessment: Assessment): ReadonlyMap<string, string> =>
  new Map(
    recordLog(assessment).sessions.flatMap(({ id, operator, entries, evidence }) =>
      entries.map((entry) => {
        const shown = [...entry.evidence, ...evidence];
        const shows = shown.length === 0 ? '' : `; evidence ${shown.join(', ')}`;
        return [
          `work/sessions/${id}/entries/${entry.id}`,
          ` at ${clockText(entry.at)}: ${entry.words}; ${operator}${shows}`,
        ];
      }),
    ),
  );

/** A tree as indented lines: figure, formula and clause, inputs with evidence, what is missing, then what it is made of. */
const explainLines = (node: Explained, printing: Printing, indent = ''): readonly string[] => {
  const { levels, entryOf } = printing;
  const why = node.value.kind === 'not-scorable' ? `: ${node.value.why}` : '';
  const below = { ...printing, levels: levels - 1 };
  return [
    `${indent}${node.id} = ${showWithUnit(node)}${why}  (${node.label})`,
    `${indent}  by: ${node.rule.formula}; ${node.rule.clause}`,
    ...node.inputs.map(
      (input) =>
        `${indent}  from ${input.address}${entryOf.get(input.address) ?? ''}: ${showFigure(input.value)} (${input.label})${input.evidence.length > 0 ? ` [evidence ${input.evidence.join(', ')}]` : ''}`,
    ),
    ...node.missing.map((fact) => `${indent}  missing ${fact.address}: ${fact.what}; ${fact.remedy}`),
    ...(levels > 0 ? node.children.flatMap((child) => explainLines(child, below, `${indent}    `)) : []),
  ];
};
