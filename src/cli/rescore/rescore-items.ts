import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { isUnfastenError, showValue } from '#quantity/unfasten-error';
import type { Assessment } from '#record/schema/assessment';
import { canonicalJson, sha256Hex } from '#store/canonical-json';
import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import { withLaboratory } from '#verdict/laboratory/with-laboratory';
import { mixturesOf } from '#verdict/rescore/mixtures';
import { type FailedItem, RESCORING_METHOD, type RescoredItem } from '#verdict/rescore/rescoring';
import { splitChange } from '#verdict/rescore/split-change';
import { rubricFacts } from '#verdict/rubric/facts/rubric-facts';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import { requireAssessment } from '../read-folder.ts';
import { type KeptFacts, keepFacts, readKeptFacts, routeFactsOf, routeHash, structureHash } from './facts-store.ts';
import type { ArchiveItem } from './find-assessments.ts';
import { joinedFacts, unanswered } from './metric-needs.ts';
import { type PackedResult, packedResult } from './run-results.ts';

/** What rescoring works with, as plain data that a worker can be sent. */
export interface RescoreSettings {
  readonly before: Rubric;
  readonly after: Rubric;
  /** Is what each criterion adds split too? */
  readonly byCriterion: boolean;
  /** Whose readings hold where a record chooses none. */
  readonly laboratory?: Laboratory | undefined;
  /** Folder of kept facts. */
  readonly factsFolder: string;
  /** Keys of results that are there already. */
  readonly known: ReadonlySet<string>;
  /** Structure of every file seen before, by the digest of the file. */
  readonly structures: ReadonlyMap<string, string>;
}

/** One record to rescore: where it lies, and where its later state lies where that is another file. */
export interface RescoreTask {
  readonly item: string;
  readonly before: ArchiveItem;
  readonly after?: ArchiveItem;
}

/** What came of a task. `key` names files, rubrics and method: under the same key the result is the same. */
export type RescoreAnswer = {
  readonly structures: readonly (readonly [file: string, structure: string])[];
} & (
  | { readonly kind: 'scored'; readonly key: string; readonly result: RescoredItem }
  | { readonly kind: 'known'; readonly key: string; readonly item: string }
  | { readonly kind: 'failed'; readonly failed: FailedItem }
);

/** What came of a task as it is kept: a result as the JSON it is written as, with what places need of it. */
export type PackedAnswer =
  | Exclude<RescoreAnswer, { readonly kind: 'scored' }>
  | (Omit<Extract<RescoreAnswer, { readonly kind: 'scored' }>, 'result'> & { readonly packed: PackedResult });

/** How is an answer handed over? Text goes from thread to thread much faster than what it says. */
export const packedAnswer = (answer: RescoreAnswer): PackedAnswer => {
  if (answer.kind !== 'scored') return answer;
  const { result, ...rest } = answer;
  return { ...rest, packed: packedResult(result) };
};

/** How is a record rescored? With facts kept in the folder where they are there, else worked out from the record and kept. */
export const itemRescorer = (settings: RescoreSettings): ((task: RescoreTask) => RescoreAnswer) => {
  const { before, after, factsFolder, laboratory, known } = settings;
  const mixtures = mixturesOf(before, after);
  // What is learnt lies beside what was known: a copy of that would be held twice.
  const found = new Map<string, string>();
  const rules = rulesOf(settings);
  // A copy elsewhere stands in another folder, with other evidence, and is read for itself. What is kept of a file read under a
  // laboratory's readings is that of another record.
  const fileKey = (digest: string, { path }: ArchiveItem): string =>
    rulesDigest([digest, resolve(path), ...(laboratory ? [laboratory] : [])]);
  return (task) => {
    const learnt: (readonly [string, string])[] = [];
    const factsOf = (item: ArchiveItem, digest: string): KeptFacts => {
      const placed = fileKey(digest, item);
      const structure = found.get(placed) ?? settings.structures.get(placed);
      const kept = structure === undefined ? undefined : readKeptFacts(factsFolder, structure);
      if (kept && unanswered([before, after], kept.facts).length === 0) return kept;
      const made = makeFacts(
        withLaboratory(requireAssessment(item.path).assessment, laboratory),
        [before, after],
        factsFolder,
      );
      if (sha256Hex(readFileSync(item.file)) === digest) {
        found.set(placed, made.structure);
        learnt.push([placed, made.structure]);
      }
      return made.kept;
    };
    try {
      // What lies beside a file that has not changed is not read again, so a second one would go unseen.
      for (const { isOneOfSeveral, path } of [task.before, ...(task.after ? [task.after] : [])])
        if (isOneOfSeveral) requireAssessment(path);
      const first = sha256Hex(readFileSync(task.before.file));
      const second = task.after ? sha256Hex(readFileSync(task.after.file)) : first;
      const places = [task.before, task.after ?? task.before].map(({ path }) => resolve(path));
      const key = rulesDigest([rules, first, second, ...places]);
      if (known.has(key)) return { kind: 'known', key, item: task.item, structures: [] };
      const from = factsOf(task.before, first);
      const to = task.after ? factsOf(task.after, second) : from;
      const split = splitChange(mixtures, { before: from.facts, after: to.facts }, settings.byCriterion);
      return { kind: 'scored', key, structures: learnt, result: { item: task.item, product: to.product, ...split } };
    } catch (error) {
      return { kind: 'failed', failed: failureOf(task, error), structures: learnt };
    }
  };
};

/** What tells runs apart whose results differ for the same files: rubrics, readings, method and how deep the split goes. */
export const rulesOf = ({
  before,
  after,
  byCriterion,
  laboratory,
}: Pick<RescoreSettings, 'before' | 'after' | 'byCriterion' | 'laboratory'>): string =>
  rulesDigest([before, after, byCriterion, RESCORING_METHOD, ...(laboratory ? [laboratory] : [])]);

const rulesDigest = (rules: readonly unknown[]): string => sha256Hex(canonicalJson(rules));

const makeFacts = (
  assessment: Assessment,
  rubrics: readonly Rubric[],
  factsFolder: string,
): { readonly structure: string; readonly kept: KeptFacts } => {
  const structure = structureHash(assessment);
  const known = readKeptFacts(factsFolder, structure)?.facts;
  if (known && unanswered(rubrics, known).length === 0)
    return { structure, kept: { product: assessment.product.name, facts: known } };
  const routes = routeHash(assessment);
  const shared = readKeptFacts(factsFolder, routes)?.facts;
  const there = known ? joinedFacts(shared, known) : shared;
  const facts = joinedFacts(there, rubricFacts({ assessment }, unanswered(rubrics, there)));
  if (unanswered(rubrics, shared).length > 0)
    keepFacts(factsFolder, routes, { product: '', facts: routeFactsOf(joinedFacts(shared, facts)) });
  return { structure, kept: keepFacts(factsFolder, structure, { product: assessment.product.name, facts }) };
};

const failureOf = ({ item, before }: RescoreTask, error: unknown): FailedItem => {
  if (isUnfastenError(error)) {
    const { where, value, remedy } = error.details;
    const shown = value === undefined ? '' : `: ${showValue(value)}`;
    return { item, where, message: `${error.message}${shown}`, remedy };
  }
  const { code, path, message } = error as NodeJS.ErrnoException;
  if (code !== undefined)
    return {
      item,
      where: path ?? before.file,
      message: `cannot be read (${code})`,
      remedy: 'Check the file and its permissions.',
    };
  return {
    item,
    where: before.file,
    message: `a fault in unfasten, not in the record: ${message}`,
    remedy: 'Report it with the record, if you may; the other records are not touched by it.',
  };
};
