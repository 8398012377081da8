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
export const commandList: readonly CommandEntry[] = [];
