import type { Command } from 'commander';

/** Adds a command, not yet configured, below another: described by its summary as a sentence. */
export function addCommand(parent: Command, name: string, summary: string): Command {
  const description = `${summary.charAt(0).toUpperCase()}${summary.slice(1)}.`;
  return parent.command(name).summary(summary).description(description);
}
