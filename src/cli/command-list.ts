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
    name: 'report',
    summary: 'write the report, the verdict as JSON, and the steps and fasteners as tables',
    load: async () => (await import('./commands/report.ts')).configureReport,
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
];
