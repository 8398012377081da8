import { createHash } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { canonicalJson, renderJson } from '#report/export/canonical-json';
import { renderCsvFasteners, renderCsvSteps } from '#report/export/csv-tables';
import { renderReport } from '#report/render-report';
import { listed } from '#report/words/counts';
import { computeVerdict } from '#verdict/compute-verdict';
import type { Verdict } from '#verdict/verdict';
import { type CommandContext, type ConfigureCommand, examplesText } from '../command-context.ts';
import { requireAssessment } from '../read-folder.ts';
import { writeFileWhole } from '../write-file-whole.ts';

/** Adds `unfasten report`: writes the report that answers everything, and the same as data. */
export const configureReport: ConfigureCommand = (command, context) => {
  command
    .argument('<path>', 'assessment folder, or an assessment as a YAML or JSON file')
    .option('--out <folder>', 'folder to write into; made where it is missing', 'out/report')
    .option('--json', 'print {"files": [...]} with path, bytes and SHA-256 of each')
    .addHelpText(
      'after',
      examplesText([
        [
          'unfasten report examples/tarn-5',
          'writes report.html, verdict.json, steps.csv and fasteners.csv to out/report',
        ],
        ['unfasten report examples/tarn-5 --out dossier', 'the same into another folder'],
        ['unfasten report examples/tarn-5 --json', 'says what was written, for other programs'],
      ]),
    )
    .action((path: string, options: { readonly out: string; readonly json?: boolean }) =>
      runReport(path, options, context),
    );
};

const runReport = (
  path: string,
  options: { readonly out: string; readonly json?: boolean },
  context: CommandContext,
): void => {
  const progress = context.startProgress('report');
  try {
    const { assessment } = requireAssessment(path);
    progress.update('verdict');
    const verdict = computeVerdict(assessment, { recordDigest: sha256(canonicalJson(assessment), 'hex') });
    progress.update('pages');
    const written = writeAll(options.out, renderAll(verdict));
    progress.stop();
    if (options.json) context.output.json({ files: written });
    else printWritten(verdict, written, context);
  } finally {
    progress.stop();
  }
};

interface WrittenFile {
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

const renderAll = (verdict: Verdict): readonly (readonly [name: string, text: string])[] => [
  ['report.html', renderReport(verdict, { sha256Base64: (text) => sha256(text, 'base64') })],
  ['verdict.json', renderJson(verdict)],
  ['steps.csv', renderCsvSteps(verdict)],
  ['fasteners.csv', renderCsvFasteners(verdict)],
];

const writeAll = (folder: string, files: ReturnType<typeof renderAll>): readonly WrittenFile[] => {
  mkdirSync(folder, { recursive: true });
  return files.map(([name, text]) => {
    const path = join(folder, name);
    writeFileWhole(path, text);
    return { path, bytes: Buffer.byteLength(text), sha256: sha256(text, 'hex') };
  });
};

const sha256 = (text: string, encoding: 'hex' | 'base64'): string =>
  createHash('sha256').update(text, 'utf8').digest(encoding);

const printWritten = (verdict: Verdict, written: readonly WrittenFile[], { output }: CommandContext): void => {
  output.line(`${output.emphasise(verdict.product.name, 'bold')}: ${verdict.heading}.`);
  if (verdict.scope.inScope === false)
    output.line(`Outside the scheme: ${verdict.scope.outOfScope} (${verdict.scope.article}).`);
  for (const { basis, figures, letter } of verdict.bases) {
    output.line(
      `  ${basis}: R ${figures.R ?? 'open'}, ${letter.state}${letter.letters.length > 0 ? `, ${listed(letter.letters, 'or')}` : ''}`,
    );
  }
  output.line('Written:');
  for (const { path, bytes } of written) output.line(`  ${path} (${bytes} bytes)`);
};
