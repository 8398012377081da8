import { UnfastenError } from '#quantity/unfasten-error';
import { closestName } from '#record/suggest';
import type { RouteSource } from '#routes/problem/from-record';
import { type Unreachable, unreachableWords } from '#routes/search/unreachable';
import { computeVerdict } from '#verdict/compute-verdict';
import { groundworkOf } from '#verdict/index-bases';
import { type RouteWithTools, routesWithTools } from '#verdict/routes-with-tools';
import type { LedgerLine, PartVerdict } from '#verdict/verdict';
import { type Names, namesOf } from '#verdict/words';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { exitCodes } from '../exit-codes.ts';
import { laboratoryForm, laboratoryOption, requireRecord } from '../laboratory-option.ts';

interface RoutesOptions {
  readonly part?: string;
  readonly tools?: string;
  readonly laboratory?: string;
  readonly json?: boolean;
}

/** Adds `unfasten routes`: by which route is each part reached, in how many steps, and why? */
export const configureRoutes: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--part <id>', 'one part, with its step ledger')
    .option('--tools <ids>', 'with these tools only, separated by commas')
    .addOption(laboratoryOption())
    .option('--json', 'print JSON')
    .addHelpText(
      'after',
      examplesText([
        ['unfasten routes examples/tarn-5', 'every part: steps, time, whether shown, whether done from end to end'],
        ['unfasten routes examples/tarn-5 --part battery', 'the steps to the battery, with the reason each ended'],
        [
          'unfasten routes examples/tarn-5 --part battery --tools ph000,spudger',
          'whether these tools are enough, and which are missing',
        ],
      ]),
    )
    .action((path: string, options: RoutesOptions) => runRoutes(path, options, context));
};

const runRoutes = (path: string, options: RoutesOptions, context: CommandContext): void => {
  const progress = context.startProgress('routes');
  try {
    const record = requireRecord(path, options.laboratory);
    const { assessment } = record;
    if (!options.json) for (const line of record.lines) context.output.line(line);
    if (options.tools !== undefined) {
      const groundwork = groundworkOf(assessment);
      withTools(
        groundwork,
        {
          ...options,
          tools: options.tools
            .split(',')
            .map((id) => id.trim())
            .filter(Boolean),
        },
        context,
      );
      return;
    }
    const verdict = computeVerdict(assessment, { recordDigest: '' });
    const parts = options.part === undefined ? verdict.parts : [partNamed(options.part, verdict.parts)];
    if (options.json)
      context.output.json({
        ...laboratoryForm(record),
        ...(options.part === undefined ? { parts, burden: verdict.burden } : parts[0]),
      });
    else
      for (const line of options.part === undefined ? overviewLines(parts) : partLines(parts[0]))
        context.output.line(line);
  } finally {
    progress.stop();
  }
};

const partNamed = (id: string, parts: readonly PartVerdict[]): PartVerdict =>
  parts.find((part) => part.part === id) ??
  noSuchPart(
    id,
    parts.map(({ part }) => part),
  );

const noSuchPart = (id: string, parts: readonly string[]): never => {
  const close = closestName(id, parts);
  throw new UnfastenError('usage', 'There is no such part', {
    where: '--part',
    value: id,
    remedy:
      close === undefined ? 'Call `unfasten routes` without --part to see all parts.' : `Did you mean "${close}"?`,
  });
};

const steps = (part: PartVerdict): string => {
  const { shown, atLeast } = part.depth;
  if (shown === undefined) return atLeast === undefined ? 'no route' : `none shown (${atLeast} or more)`;
  return atLeast !== undefined && atLeast < shown ? `${shown} (could be ${atLeast})` : String(shown);
};

/** All parts, a line each. */
export const overviewLines = (parts: readonly PartVerdict[]): readonly string[] => [
  ['part'.padEnd(28), 'steps'.padEnd(24), 'time [s]'.padEnd(12), 'performed'.padEnd(16), 'goes back'].join(''),
  ...parts.map((part) =>
    [
      `${part.name}${part.priority ? ' *' : ''}`.padEnd(28),
      steps(part).padEnd(24),
      (part.best?.seconds?.toFixed(0) ?? '-').padEnd(12),
      (part.best?.performed ?? '-').padEnd(16),
      part.reversible.shown ? 'shown' : 'not shown',
    ].join(''),
  ),
  '',
  '* priority part of Regulation (EU) 2023/1669. Steps without pairing. Without a shown route that end stays open.',
];

const stepNumbers = ({ from, to }: LedgerLine): string => (from === to ? String(from) : `${from}–${to}`);

const ledgerText = (line: LedgerLine): readonly string[] => [
  `${stepNumbers(line).padStart(6)}  ${line.does.join('; ')}`,
  `        with ${line.tools.length > 0 ? line.tools.join(' and ') : 'bare hands'}; ended: ${line.ended}${line.inStretch ? '; counts for fastener and tool' : ''}`,
];

/** One part: its best-found ledger and what else is known of it. */
const partLines = (part: PartVerdict | undefined): readonly string[] => {
  if (!part) return [];
  const { best } = part;
  if (!best) return [`${part.name}: no route shown. ${part.depth.why ?? ''}`];
  return [
    `${part.name}: ${steps(part)} steps, best found${best.proved ? ', proved' : `, not proved (bound ${best.bound ?? '?'})`}; ${best.performed.replaceAll('-', ' ')}`,
    ...best.lines.flatMap(ledgerText),
    `Fastener points ${best.fastenerPoints ?? 'open'}, tool points ${best.toolPoints ?? 'open'}, about ${best.seconds?.toFixed(0) ?? '?'} s.`,
    ...(part.leastTime ? [`Least time: ${part.leastTime.seconds.toFixed(0)} s.`] : []),
    ...(part.expected
      ? [
          `Expected time: ${part.expected.seconds.toFixed(0)} s, stranded ${(part.expected.stranded * 100).toFixed(1)} %, damage ${(part.expected.damage * 100).toFixed(1)} %${part.expected.note ? `; ${part.expected.note}` : ''}.`,
        ]
      : []),
    `Putting back: ${part.reversible.shown ? 'shown' : 'not shown'} (${part.reversible.why}).`,
    ...part.missing.map((fact) => `Open: ${fact.what} (${fact.address}); ${fact.remedy}.`),
  ];
};

const withTools = (
  groundwork: { readonly source: RouteSource } & ReturnType<typeof groundworkOf>,
  options: { readonly part?: string; readonly tools: readonly string[]; readonly json?: boolean },
  context: CommandContext,
): void => {
  const known = groundwork.source.assessment.tools ?? {};
  const unknown = options.tools.filter((id) => !known[id]);
  const [first] = unknown;
  if (first !== undefined) {
    const close = closestName(first, Object.keys(known));
    throw new UnfastenError('usage', 'There is no such tool', {
      where: '--tools',
      value: first,
      remedy: close === undefined ? `The record has: ${Object.keys(known).join(', ')}.` : `Did you mean "${close}"?`,
    });
  }
  const { parts } = groundwork.source.device;
  if (options.part !== undefined && !parts.has(options.part)) noSuchPart(options.part, [...parts.keys()]);
  const rows = routesWithTools(groundwork, options.tools, options.part === undefined ? undefined : [options.part]);
  const names = namesOf(groundwork.source.device, known);
  if (options.json) context.output.json(rows.map((row) => plainRow(row, names)));
  else for (const row of rows) context.output.line(rowText(row, names));
  if (rows.some(({ shown }) => shown.kind !== 'found')) context.finish(exitCodes.recordHasProblems);
};

/** One part with the named tools, for programs: ids, and the reason in words. */
const plainRow = ({ part, shown }: RouteWithTools, names: Names): object =>
  shown.kind === 'found'
    ? { part, steps: shown.steps, actions: shown.route, proved: shown.proved }
    : { part, steps: null, why: whyNot(shown, names), addTools: shown.addTools };

/** One part with the named tools, for people: everything by its name. */
const rowText = ({ part, shown }: RouteWithTools, names: Names): string => {
  const name = names.part(part);
  if (shown.kind === 'found') return `${name}: ${shown.steps} steps with these tools`;
  const [first] = shown.addTools;
  if (!first) return `${name}: not with these tools; ${whyNot(shown, names)}`;
  const sets = shown.addTools.map((set) => set.map(names.tool).join(' and '));
  return `${name}: not with these tools; enough with ${sets.join(', or ')}`;
};

/** Why not, in words: what is wanted are tools, or what bars the way are parts and fasteners. */
const whyNot = (shown: Unreachable, { tool, any }: Names): string =>
  unreachableWords(shown, shown.addTools.length > 0 ? tool : any);
