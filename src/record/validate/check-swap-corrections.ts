import { unknownNameRemedy } from '../suggest.ts';
import type { LinkContext } from './check-links.ts';
import { circlesOf } from './cycles.ts';
import { itemOf, itemsOf, textOf } from './plain.ts';

/** Does every correction of a fit point at one other, is each corrected once, and does no circle arise? */
export const checkSwapCorrections = ({ data, findings }: LinkContext): void => {
  const corrected = new Map<string, string>();
  const next = new Map<string, string[]>();
  const swaps = itemsOf(data.swaps);
  for (const [id, { corrects, withdrawn }] of swaps) {
    const old = textOf(corrects);
    const place = ['swaps', id, 'corrects'];
    if (old === undefined) {
      if (withdrawn === true) findings.add(['swaps', id, 'withdrawn'], WITHDRAWN);
    } else if (!itemOf(data.swaps, old)) findings.add(place, unknownSwap(old, swaps));
    else if (corrected.has(old)) findings.add(place, twice(old, corrected.get(old) ?? ''));
    else {
      corrected.set(old, id);
      next.set(id, [old]);
    }
  }
  for (const [first = '', ...rest] of circlesOf(next))
    findings.add(['swaps', first, 'corrects'], {
      value: rest[0] ?? first,
      kind: 'cycle',
      message: `corrections go in a circle: ${[first, ...rest, first].slice(0, 12).join(' → ')}`,
      remedy: 'A correction points at an earlier fit: take out one link.',
    });
};

const WITHDRAWN = {
  value: true,
  message: 'a fit is withdrawn by a later one that corrects it',
  remedy: 'Leave the fit as it was; add one with "corrects" and "withdrawn".',
};

const unknownSwap = (old: string, swaps: ReturnType<typeof itemsOf>) => ({
  value: old,
  kind: 'unknown-reference' as const,
  message: `there is no fit "${old}"`,
  remedy: unknownNameRemedy(
    old,
    swaps.map(([id]) => id),
    'Name a fit that is recorded.',
  ),
});

const twice = (old: string, other: string) => ({
  value: old,
  message: `fit "${old}" is already corrected by "${other}"`,
  remedy: `Correct "${other}" instead, so that one fit stands in the end.`,
});
