import type { Command } from 'commander';
import { sentence } from '#quantity/counts';

/** Adds a command, not yet configured, below another: described by its summary as a sentence. */
export function addCommand(parent: Command, name: string, summary: string): Command {
  return parent
    .command(name)
    .summary(summary)
    .description(`${sentence(summary)}.`);
}
