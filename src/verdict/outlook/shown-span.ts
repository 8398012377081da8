import { listed } from '#quantity/counts';
import { showScaled } from '#quantity/explained';
import type { Objective } from '../bounds/scaled-figure.ts';
import type { Span } from '../questions/rank-questions.ts';

/** How is a scaled value shown, with the decimals of its figure? */
export const shownFigure = (scaled: number, figure: Objective): string => showScaled(scaled, figure === 'R' ? 4 : 2);

/** R from end to end and the letters possible, ready to be shown. */
export interface ShownSpan {
  readonly low?: string;
  readonly high?: string;
  readonly letters: readonly string[];
  readonly mayBeNotScorable: boolean;
}

/** How is a span shown, with the decimals of R? */
export const shownSpan = ({ low, high, letters, mayBeNotScorable }: Span): ShownSpan => ({
  ...(low === undefined ? {} : { low: shownFigure(low, 'R') }),
  ...(high === undefined ? {} : { high: shownFigure(high, 'R') }),
  letters,
  mayBeNotScorable,
});

/** A span in words: the class or classes, and R from end to end. */
export const spanWords = ({ low, high, letters, mayBeNotScorable }: ShownSpan): string => {
  const also = mayBeNotScorable ? ', or not scorable' : '';
  if (low === undefined || high === undefined) return 'not scorable';
  return `class ${listed(letters, 'or')}, R ${low === high ? low : `${low} to ${high}`}${also}`;
};
