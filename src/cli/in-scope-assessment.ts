import type { Assessment } from '#record/schema/assessment';
import { scopeVerdict } from '#verdict/scope-verdict';
import type { CommandContext } from './command-context.ts';
import { exitCodes } from './exit-codes.ts';
import { type ReadRecord, requireRecord } from './laboratory-option.ts';
import { scopeLines } from './scope-lines.ts';

/** A record that the scheme covers, or may cover: then with the lines that say what is open of the scope. */
export interface InScope {
  readonly assessment: Assessment;
  readonly lines: readonly string[];
  readonly record: ReadRecord;
}

/**
 * The assessment of a path for commands about the index. Undefined where the scheme does not cover it: that is said with the
 * article, and the command ends with code 1. The
 * assessment has the laboratory's readings where it chose none. Throws as `requireAssessment` does.
 */
export const inScopeAssessment = (
  path: string,
  { json, laboratory }: { readonly json?: boolean; readonly laboratory?: string },
  context: CommandContext,
): InScope | undefined => {
  const record = requireRecord(path, laboratory);
  const { assessment, lines } = record;
  const scope = scopeVerdict(assessment);
  if (scope.inScope !== false) return { assessment, lines: [...scopeLines(scope), ...lines], record };
  const { outOfScope, article } = scope;
  if (json) context.output.json({ outOfScope, article });
  else context.output.line(`Out of scope: ${outOfScope} (${article}).`);
  context.finish(exitCodes.recordHasProblems);
  return undefined;
};
