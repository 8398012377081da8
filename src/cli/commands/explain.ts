import { type Explained, findExplained, showFigure } from '#quantity/explained';
import { UnfastenError } from '#quantity/unfasten-error';
import { closestName } from '#record/suggest';
import { groundworkOf, type IndexBasis, indexBases, readingsOf } from '#verdict/index-bases';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { requireAssessment } from '../read-folder.ts';

/** Adds `unfasten explain`: why is a figure what it is, down to clause, inputs and evidence? */
export const configureExplain: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .argument('[figure]', 'basis and id path, such as observed/SDD/battery', 'best')
    .option('--json', 'print the tree as JSON')
    .option('--depth <levels>', 'how many levels to print (all)')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten explain examples/tarn-5 best', 'R on the best-found basis, with everything it is made of'],
        ['unfasten explain examples/tarn-5 observed/SDD/battery', 'why the battery counts as many steps as it does'],
        ['unfasten explain examples/tarn-5 best/SF --depth 2', 'the fastener score, two levels down'],
      ]),
    )
    .action((path: string, figure: string, options: { readonly json?: boolean; readonly depth?: string }) =>
      runExplain({ path, figure, ...options }, context),
    );
};

const runExplain = (
  asked: { readonly path: string; readonly figure: string; readonly json?: boolean; readonly depth?: string },
  context: CommandContext,
): void => {
  const { assessment } = requireAssessment(asked.path);
  const bases = indexBases(groundworkOf(assessment), readingsOf(assessment));
  const node = figureAt(bases, asked.figure);
  const depth = depthOf(asked.depth);
  if (asked.json) context.output.json(node);
  else for (const line of explainLines(node, depth)) context.output.line(line);
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

/** Which node does an id path name? The basis first, then ids down the tree; R itself may be left out. Throws with what stands there. */
export const figureAt = (bases: readonly IndexBasis[], figure: string): Explained => {
  const [name = '', ...rest] = figure.split('/').filter(Boolean);
  const basis = bases.find((candidate) => candidate.basis === name);
  if (!basis)
    throw unknownFigure(
      figure,
      name,
      bases.map((candidate) => candidate.basis),
    );
  const ids = rest[0] === 'R' ? rest.slice(1) : rest;
  let at: Explained = basis.tree;
  for (const id of ids) {
    const next = findExplained(at, id);
    if (!next)
      throw unknownFigure(
        figure,
        id,
        at.children.map((child) => child.id),
      );
    at = next;
  }
  return at;
};

const unknownFigure = (figure: string, id: string, there: readonly string[]): UnfastenError => {
  const close = closestName(id, there);
  const choice = there.length > 0 ? `Here stand: ${there.join(', ')}.` : 'Nothing stands below this figure.';
  return new UnfastenError('usage', 'There is no such figure', {
    where: figure,
    value: id,
    remedy: close ? `Did you mean "${close}"? ${choice}` : choice,
  });
};

/** A tree as indented lines: figure, formula and clause, inputs with evidence, what is missing, then what it is made of. */
export const explainLines = (node: Explained, depth: number, indent = ''): readonly string[] => {
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
