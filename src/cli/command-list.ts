import type { ConfigureCommand } from './command-context.ts';

/** One command as the overview shows it; its code is loaded only when it is called. */
export interface CommandEntry {
  readonly name: string;
  readonly summary: string;
  load(): Promise<ConfigureCommand>;
}

/**
 * Which commands are there? In the order in which a newcomer needs them. An entry reads
 * `{ name: 'check', summary: 'say what…', load: async () => (await import('./commands/check.ts')).configureCheck }`.
 */
export const commandList: readonly CommandEntry[] = [
  {
    name: 'check',
    summary: 'say what is wrong in a record, where, and what to do',
    load: async () => (await import('./commands/check.ts')).configureCheck,
  },
  {
    name: 'index',
    summary: 'compute the EU repairability index on its three bases',
    load: async () => (await import('./commands/index.ts')).configureIndex,
  },
  {
    name: 'explain',
    summary: 'say why a figure is what it is, down to clause and evidence',
    load: async () => (await import('./commands/explain.ts')).configureExplain,
  },
  {
    name: 'routes',
    summary: 'show by which route each part is reached, and why in so many steps',
    load: async () => (await import('./commands/routes.ts')).configureRoutes,
  },
  {
    name: 'bounds',
    summary: 'say between which ends the verdict can still move, exact or a bound',
    load: async () => (await import('./commands/bounds.ts')).configureBounds,
  },
  {
    name: 'questions',
    summary: 'say what to settle next, and what each answer would make of the verdict',
    load: async () => (await import('./commands/questions.ts')).configureQuestions,
  },
  {
    name: 'answer',
    summary: 'write the answer to an open question into the record, with who, when and evidence',
    load: async () => (await import('./commands/answer.ts')).configureAnswer,
  },
  {
    name: 'duties',
    summary: 'say which legal duties the record shows met, not met or not shown',
    load: async () => (await import('./commands/duties.ts')).configureDuties,
  },
  {
    name: 'rubric',
    summary: 'score a product by a house rubric, with the width that open facts leave',
    load: async () => (await import('./commands/rubric.ts')).configureRubric,
  },
  {
    name: 'rescore',
    summary: 'score an archive by another rubric or on other facts, and split every change',
    load: async () => (await import('./commands/rescore.ts')).configureRescore,
  },
  {
    name: 'robustness',
    summary: 'say how firm scores and places are when weights vary and facts are open',
    load: async () => (await import('./commands/robustness.ts')).configureRobustness,
  },
  {
    name: 'swaps',
    summary: 'plan, diagnose or simulate part swaps: what the software refuses, and why',
    load: async () => (await import('./commands/swaps.ts')).configureSwaps,
  },
  {
    name: 'report',
    summary: 'write the report, the verdict as JSON, and the steps and fasteners as tables',
    load: async () => (await import('./commands/report.ts')).configureReport,
  },
  {
    name: 'ledger',
    summary: 'verify, back up, import into and export from the ledger of the bench',
    load: async () => (await import('./commands/ledger.ts')).configureLedger,
  },
  {
    name: 'history',
    summary: 'say what changed in an assessment, when, why and by whom, and what it did to the index',
    load: async () => (await import('./commands/history.ts')).configureHistory,
  },
  {
    name: 'schema',
    summary: 'print the JSON Schema of an assessment, or its description',
    load: async () => (await import('./commands/schema.ts')).configureSchema,
  },
  {
    name: 'solve',
    summary: 'find the cheapest sequence of a route problem file',
    load: async () => (await import('./commands/solve.ts')).configureSolve,
  },
  {
    name: 'serve',
    summary: 'open the bench application over the ledger of a data folder',
    load: async () => (await import('./commands/serve.ts')).configureServe,
  },
];
