import { counted } from '#quantity/counts';
import { clockText } from '#report/words/durations';
import type { LedgerLine, PartVerdict } from '#verdict/verdict';
import type { PartWithTools } from '../engine/engine-messages.ts';

/** How deep does a part lie, in words: steps as shown, as few as nothing excludes, or that no route is shown? */
export const depthWords = ({ depth: { shown, atLeast } }: Pick<PartVerdict, 'depth'>): string => {
  if (shown === undefined) return atLeast === undefined ? 'no route' : `none shown, ${atLeast} or more`;
  return atLeast !== undefined && atLeast < shown ? `${atLeast} to ${shown}` : String(shown);
};

/** How long does a line of a ledger take: the mean, and under it the spread of what was measured? */
export const timeWords = ({ seconds, spread }: LedgerLine): { readonly mean: string; readonly spread?: string } => {
  if (seconds === undefined && spread === undefined) return { mean: 'not measured' };
  const mean = seconds === undefined ? '' : `mean ${clockText(seconds)}`;
  if (spread === undefined) return { mean };
  if (spread.n === 1) return { mean, spread: 'measured once' };
  const [median, low, high] = [spread.median, spread.low, spread.high].map(clockText);
  return { mean, spread: `median ${median}, ${low} to ${high}, n ${spread.n}` };
};

/** How is a part reached with the tools asked about, in words? */
export const toolsWords = (part: PartWithTools, nameOf: (tool: string) => string): string => {
  if (part.steps !== undefined) return `${counted(part.steps, 'step')}${part.proved ? '' : ', not proved the fewest'}`;
  const sets = part.addTools.map((set) => set.map(nameOf).join(' and '));
  return sets.length === 0 ? `not reached: ${part.why}` : `not reached; enough with ${sets.join(', or with ')} as well`;
};
