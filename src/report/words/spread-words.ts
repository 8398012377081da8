import type { ScoreShare, ScoreShares } from '#verdict/robustness/score-shares';
import type { EstimatedShare } from '#verdict/robustness/variance-shares';
import { metricOf } from '#verdict/rubric/linked-roles';
import { metricKey, metricLabel } from '#verdict/rubric/metric-kinds';
import type { Rubric } from '#verdict/rubric/rubric-schema';

/** What the two shares mean, said once above all tables; a reader who knows no statistics must not misread them. */
export const SPREAD_LEGEND: readonly string[] = [
  'Whose the spread is. Alone: by how much the variance of the score would shrink in the mean if only this became known.',
  'With others: how much of it would be left in the mean if everything but this became known.',
  'Shares alone sum to at most 100 %; shares with others may sum to more, since what two do together counts for both.',
  '± is two standard errors of the sampling. All of it holds under these draws only and says not how likely anything is.',
];

/** Below this, a share with others goes without a line of its own. */
const SMALL = 0.01;

/** How does the spread of one product's score read, and whose it is? Lines of plain text, largest share first. */
export function spreadLines(found: ScoreShares, rubric: Rubric): readonly string[] {
  if (found.state === 'still') return ['  the score moved in no sample'];
  if (found.state === 'not-always-scored')
    return ['  in some samples no criterion applies and there is no score: no spread to share'];
  const shown = found.shares.filter(({ withOthers }) => withOthers.share + 2 * withOthers.error >= SMALL);
  const rest = found.shares.length - shown.length;
  return [
    `  standard deviation ${found.deviation.toFixed(2)} points about a mean of ${found.mean.toFixed(1)}`,
    `  ${'alone'.padEnd(14)}with others`,
    ...shown.map(
      ({ alone, withOthers, drawn }) =>
        `  ${shareText(alone).padEnd(14)}${shareText(withOthers).padEnd(14)}${drawnWords(drawn, rubric)}`,
    ),
    ...(rest > 0 ? [`  ${rest} more that are drawn: each below 1 % with others`] : []),
  ];
}

/** An estimate below nothing is sampling, and reads as nothing. */
const shareText = ({ share, error }: EstimatedShare): string =>
  `${Math.max(0, share * 100).toFixed(0)} % ± ${Math.max(1, Math.ceil(200 * error))}`;

/** What is it that was drawn? */
const drawnWords = ({ of, id }: ScoreShare['drawn'], { criteria, caps }: Rubric): string => {
  if (of === 'weight') return `weight of "${criteria[id]?.title ?? id}"`;
  if (of === 'role') return `whether there is such a part: ${id.replaceAll('-', ' ')}`;
  if (of === 'category') return 'the category of the product';
  const items = [...Object.values(criteria), ...Object.values(caps ?? {})];
  const metric = items.map(metricOf).find((candidate) => metricKey(candidate) === id);
  return `open fact: ${metric ? metricLabel(metric) : id}`;
};
