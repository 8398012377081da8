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
