import { type Explained, showFigure } from '#quantity/explained';
import { UnfastenError } from '#quantity/unfasten-error';
import { groundworkOf, indexBases, readingsOf } from '#verdict/index-bases';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { laboratoryOption, requireRecord } from '../laboratory-option.ts';
import { type NamedFigure, namedFigures } from '../named-figures.ts';

/** Adds `unfasten explain`: why is a figure what it is, down to clause, inputs and evidence? */
export const configureExplain: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .argument(
      '[figure]',
      'path of a figure, such as observed/SDD/battery; without a basis, on every basis that has it',
      'best',
    )
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
      ]),
    )
    .action((path: string, figure: string, options: ExplainOptions) =>
      runExplain({ path, figure, ...options }, context),
    );
};

interface ExplainOptions {
  readonly json?: boolean;
  readonly depth?: string;
  readonly laboratory?: string;
}

const runExplain = (
  asked: ExplainOptions & { readonly path: string; readonly figure: string },
  context: CommandContext,
): void => {
  const { assessment, lines } = requireRecord(asked.path, asked.laboratory);
  const bases = indexBases(groundworkOf(assessment), readingsOf(assessment));
  const figures = namedFigures(bases, asked.figure);
  const depth = depthOf(asked.depth);
  const [only, ...others] = figures;
  const whole = only !== undefined && others.length === 0 && asked.figure.split(/[/.]/)[0] === only.path.split('/')[0];
  if (!asked.json) for (const line of lines) context.output.line(line);
  if (asked.json) context.output.json(whole ? only.node : figures);
  else if (whole) for (const line of explainLines(only.node, depth)) context.output.line(line);
  else for (const line of figures.flatMap((figure) => headedLines(figure, depth))) context.output.line(line);
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
const headedLines = ({ path, node }: NamedFigure, depth: number): readonly string[] => [
  `${path}:`,
  ...explainLines(node, depth, '  '),
  '',
];

/** A tree as indented lines: figure, formula and clause, inputs with evidence, what is missing, then what it is made of. */
const explainLines = (node: Explained, depth: number, indent = ''): readonly string[] => {
  const unit = node.unit === undefined || node.value.kind !== 'count' ? '' : ` ${node.unit}`;
  const why = node.value.kind === 'not-scorable' ? `: ${node.value.why}` : '';
  return [
    `${indent}${node.id} = ${showFigure(node.value)}${unit}${why}  (${node.label})`,
    `${indent}  by: ${node.rule.formula}; ${node.rule.clause}`,
    ...node.inputs.map(
      (input) =>
        `${indent}  from ${input.address}: ${showFigure(input.value)} (${input.label})${input.evidence.length > 0 ? ` [evidence ${input.evidence.join(', ')}]` : ''}`,
    ),
    ...node.missing.map((fact) => `${indent}  missing ${fact.address}: ${fact.what}; ${fact.remedy}`),
    ...(depth > 0 ? node.children.flatMap((child) => explainLines(child, depth - 1, `${indent}    `)) : []),
  ];
};
