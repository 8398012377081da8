import { listed } from '#quantity/counts';
import type { Correction } from '#verdict/record-log';
import { wedgePath } from '../depth/entry-marks.ts';
import { html, type Markup, quoted, trusted } from '../html/markup.ts';

/** A wedge as it stands beside what is said twice and differently; the words stand beside it. */
const wedge = trusted(
  `<svg class="wedge" viewBox="0 0 9 9" width="9" height="9" aria-hidden="true" focusable="false"><path d="${wedgePath(0.5, 0.5, 'right')}"/></svg> `,
);

/** How does a place where the record says two things read? By whom, field by field before and after, and why. */
export function correctionMark({ by, who, differences, isWithdrawn, note }: Correction): Markup {
  const fields = differences.map(({ field, before, after }) => `${field}: ${before} → ${after}`);
  const what = isWithdrawn ? 'taken back' : fields.length === 0 ? 'said again with another remark' : listed(fields);
  return html`<p class="small">${wedge}read otherwise by ${quoted(by)}, ${quoted(who)}: ${quoted(what)}${note === undefined ? undefined : html` <span class="soft">(${quoted(note)})</span>`}</p>`;
}

/** Which corrections does an address have, as marks? */
export function correctionMarks(corrections: readonly Correction[], of: string): readonly Markup[] {
  return corrections.filter((correction) => correction.of === of).map(correctionMark);
}
