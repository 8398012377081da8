import type { IndexForm } from '#schemes/eu-2023-1669/index-figures';
import { DEFAULT_INTERPRETATIONS } from '#schemes/eu-2023-1669/interpretations';
import type { IndexBasis } from '#verdict/index-bases';
import { lettersOf } from '#verdict/letters';

const outside = (value: string | number | null, low: string | number | null, high: string | number | null): boolean =>
  value !== null && ((low !== null && Number(value) < Number(low)) || (high !== null && Number(value) > Number(high)));

/** Everything of a settled form that does not lie between the ends of the open one. */
const escapes = (settled: IndexForm, low: IndexForm, high: IndexForm): readonly string[] => {
  const found: string[] = [];
  if (outside(settled.R, low.R, high.R)) found.push(`R ${settled.R} not in ${low.R} to ${high.R}`);
  for (const [score, value] of Object.entries(settled.scores)) {
    const [a, b] = [low, high].map((form) => form.scores[score as keyof typeof form.scores]);
    if (outside(value, a ?? null, b ?? null)) found.push(`${score} ${value} not in ${a} to ${b}`);
  }
  for (const [role, part] of Object.entries(settled.parts)) {
    const [a, b] = [low.parts[role], high.parts[role]];
    if (!a || !b) continue;
    for (const key of ['DD', 'F', 'T'] as const)
      if (outside(part[key], a[key], b[key])) found.push(`${role} ${key} ${part[key]} not in ${a[key]} to ${b[key]}`);
    // The most steps belong to the low end.
    if (outside(part.steps, b.steps, a.steps))
      found.push(`${role} steps ${part.steps} not in ${b.steps} to ${a.steps}`);
  }
  return found;
};

/** What of a completed record's figures does the width of the open one not hold? Empty where it holds all. */
export const escaped = (open: IndexBasis, complete: IndexBasis): readonly string[] => {
  const low = open.low ?? open.figures;
  const high = open.high ?? open.figures;
  if (complete.figures.R === null)
    return open.mayBeNotScorable || open.figures.notScorable.length > 0 ? [] : ['not scorable, and that was not said'];
  const letters = lettersOf(open, DEFAULT_INTERPRETATIONS);
  const letter = complete.figures.classUnrounded ?? '';
  return [
    ...escapes(complete.figures, low, high),
    ...(letters.includes(letter) ? [] : [`letter ${letter} not among ${letters.join(' ')}`]),
  ];
};
