import type { BenchSetup } from './bench-setup.ts';
import { type BenchRun, type BenchState, sameSteps } from './bench-state.ts';
import { mayBeLeft, NO_STEP, partChoices } from './part-choices.ts';
import { needsControl } from './refit-control.ts';

/**
 * The run that brings the refit controls on: for the first host that lacks one, all open parts of it at once, since own parts hide nothing
 * from each other and each is asked for whatever the others show; before that the look at a host that was not seen yet. Undefined
 * where no open part lacks a control, or something foreign sits in the way.
 */
export const controlRun = (setup: BenchSetup, state: BenchState, open: readonly number[]): BenchRun | undefined => {
  const lacking = (host: number): readonly number[] =>
    open.filter((part) => needsControl(setup, state, { part, host }));
  const host = state.hosts.findIndex((_, at) => lacking(at).length > 0);
  const at = state.hosts[host];
  if (!at) return undefined;
  const [parts, handled] = at.seen ? [lacking(host), true] : [open, false];
  const seat = { host, firmware: at.firmware };
  const choices = state.parts.map((_, part) =>
    parts.includes(part)
      ? partChoices(setup, state, { part, ...seat }).find(
          (choice) => choice.piece === host && choice.handled === handled && sameSteps(choice, NO_STEP),
        )
      : undefined,
  );
  const isWhole = choices.every((choice, part) => choice !== undefined || mayBeLeft(state, { part, ...seat }));
  return isWhole && choices.some((choice) => choice !== undefined) ? { ...seat, choices } : undefined;
};
