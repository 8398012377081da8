import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { listed } from '#quantity/counts';
import { canonicalJson, renderJson } from '#report/export/canonical-json';
import { renderCsvFasteners, renderCsvSteps } from '#report/export/csv-tables';
import { type ReportExtras, renderReport } from '#report/render-report';
import type { ScopeVerdict } from '#schemes/eu-2023-1669/scope';
import { computeVerdict } from '#verdict/compute-verdict';
import { computeOutlook } from '#verdict/outlook/outlook';
import { recordLog } from '#verdict/record-log';
import { scoreByRubric } from '#verdict/rubric/score-by-rubric';
import { scopeVerdict } from '#verdict/scope-verdict';
import type { Verdict } from '#verdict/verdict';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { exitCodes } from '../exit-codes.ts';
import { laboratoryForm, laboratoryOption, requireRecord } from '../laboratory-option.ts';
import { makeFolder } from '../make-folder.ts';
import { predecessorOf, predecessorOption } from '../predecessor-option.ts';
import { requireRubric } from '../read-rubric-file.ts';
import { scopeLines } from '../scope-lines.ts';
import { writeFileWhole } from '../write-file-whole.ts';

/** Adds `unfasten report`: writes the report that answers everything, and the same as data. */
export const configureReport: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--out <folder>', 'folder to write into; made where it is missing', 'out/report')
    .option('--rubric <file>', 'house rubric as a YAML or JSON file (Quayside general)')
    .addOption(laboratoryOption())
    .addOption(predecessorOption())
    .option('--no-outlook', 'leave out how far the verdict can still move, which takes longest where much is open')
    .option(
      '--json',
      'print {"files": [...]} with path, bytes and SHA-256 of each; "outOfScope" and "article" where it is',
    )
    .addHelpText(
      'after',
      examplesText([
        [
          'unfasten report examples/tarn-5',
          'writes report.html, verdict.json, steps.csv and fasteners.csv to out/report',
        ],
        ['unfasten report examples/tarn-5 --out dossier', 'the same into another folder'],
        ['unfasten report examples/tarn-5 --json', 'says what was written, for other programs'],
        [
          'unfasten report examples/gust-2',
          'out of scope: the report says so with the article and shows the routes all the same; ends with code 1 as index does',
        ],
      ]),
    )
    .action((path: string, options: ReportOptions) => runReport(path, options, context));
};

interface ReportOptions {
  readonly out: string;
  readonly rubric?: string;
  readonly laboratory?: string;
  readonly predecessor?: string;
  readonly outlook: boolean;
  readonly json?: boolean;
}

const runReport = (path: string, options: ReportOptions, context: CommandContext): void => {
  const progress = context.startProgress('report');
  try {
    const rubric = requireRubric(options.rubric);
    const record = requireRecord(path, options.laboratory);
    makeFolder(options.out);
    const { assessment, written: own, laboratory } = record;
    progress.update('verdict');
    const predecessor = predecessorOf(options.predecessor, record);
    const verdict = computeVerdict(own, { recordDigest: sha256(canonicalJson(own), 'hex'), laboratory, predecessor });
    progress.update('house rubric');
    const house = scoreByRubric({ assessment, verdict, rubric });
    const scope = scopeVerdict(assessment);
    progress.update('what can still move');
    const outlook = options.outlook && scope.inScope !== false ? computeOutlook(assessment) : undefined;
    progress.update('pages');
    const written = writeAll(
      options.out,
      renderAll(verdict, { house, log: recordLog(own), product: own.product, ...(outlook ? { outlook } : {}) }),
    );
    progress.stop();
    if (options.json) context.output.json({ ...laboratoryForm(record), files: written, ...outOfScopeForm(scope) });
    else printWritten({ verdict, scope, written, lines: record.lines }, context);
    if (scope.inScope === false) context.finish(exitCodes.recordHasProblems);
  } finally {
    progress.stop();
  }
};

interface WrittenFile {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

const renderAll = (verdict: Verdict, extras: ReportExtras): readonly (readonly [name: string, text: string])[] => [
  ['report.html', renderReport(verdict, { sha256Base64: (text) => sha256(text, 'base64') }, extras)],
  ['verdict.json', renderJson(verdict)],
  ['steps.csv', renderCsvSteps(verdict)],
  ['fasteners.csv', renderCsvFasteners(verdict)],
];

const writeAll = (folder: string, files: ReturnType<typeof renderAll>): readonly WrittenFile[] => {
  return files.map(([name, text]) => {
    const path = join(folder, name);
    writeFileWhole(path, text);
    return { path, bytes: Buffer.byteLength(text), sha256: sha256(text, 'hex') };
  });
};

const sha256 = (text: string, encoding: 'hex' | 'base64'): string =>
  createHash('sha256').update(text, 'utf8').digest(encoding);

/** Files are written and the code is 1 all the same: a script that asks for the index must not take silence for a figure. */
const outOfScopeForm = (scope: ScopeVerdict): { readonly outOfScope?: string; readonly article?: string } =>
  scope.inScope === false ? { outOfScope: scope.outOfScope, article: scope.article } : {};

interface Written {
  readonly verdict: Verdict;
  readonly scope: ScopeVerdict;
  readonly written: readonly WrittenFile[];
  readonly lines: readonly string[];
}

const printWritten = ({ verdict, scope, written, lines }: Written, { output }: CommandContext): void => {
  output.line(`${output.emphasise(verdict.product.name, 'bold')}: ${verdict.heading}.`);
  if (scope.inScope === false) output.line(`Out of scope: ${scope.outOfScope} (${scope.article}).`);
  for (const line of [...scopeLines(scope), ...lines]) output.line(line);
  for (const { basis, figures, letter } of verdict.bases) {
    output.line(
      `  ${basis}: R ${figures.R ?? 'open'}, ${letter.state}${letter.letters.length > 0 ? `, ${listed(letter.letters, 'or')}` : ''}${letter.orNotScorable ? ', or not scorable' : ''}`,
    );
  }
  output.line('Written:');
  for (const { path, bytes } of written) output.line(`  ${path} (${bytes} bytes)`);
};
