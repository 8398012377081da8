import { listed } from '#quantity/counts';
import type { BasisVerdict } from '#verdict/verdict';
import type { RuleEnds } from '../rule/rule-ends.ts';

/** What letter does a basis give, and how firmly? One clause. */
export function letterWords({ letter, figures }: BasisVerdict): string {
  const letters = listed(letter.letters, 'or');
  if (letter.letters.length === 0)
    return figures.notScorable.length > 0 ? 'no class, since not scorable' : 'no class yet';
  const shown = figures.classUnrounded === null ? '' : `class ${figures.classUnrounded}, `;
  if (letter.state === 'unweighed')
    return `class ${letters} by the readings taken; the other readings are being weighed`;
  if (letter.state === 'settled') return `class ${letters}, settled`;
  if (letter.state === 'open') return `${shown}open: the facts still missing leave class ${letters}`;
  return `${shown}interpretation-dependent: by the reading taken it is class ${letters}${letter.orNotScorable ? ', or not scorable' : ''}`;
}

/** How far may R still move on a basis? One sentence; with the ends of an outlook, which are as tight or tighter. */
export function widthWords({ figures, low, high, mayBeNotScorable }: BasisVerdict, ends?: RuleEnds): string {
  const also = mayBeNotScorable ? ' It is also possible that the product is not scorable at all.' : '';
  if (low === undefined && high === undefined)
    return figures.R === null ? also.trim() : `Nothing open moves it.${also}`;
  const from = ends?.low?.R ?? low?.R ?? 'not scorable';
  const to = ends?.high?.R ?? high?.R ?? 'not scorable';
  if (from === to) return `What is open does not move R.${also}`;
  return `Anything from ${from} to ${to} is still possible.${also}`;
}
