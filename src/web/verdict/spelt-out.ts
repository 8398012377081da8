/** Most answers of one line that are spelt out, and most characters of them together; the first always is. */
const MOST = { answers: 4, characters: 120 };

/** How are answers that leave the same named on one line? As many as can be read at a glance, and the count of the others. */
export const speltOut = (answers: readonly { readonly says: string }[]): string => {
  const words = answers.map(({ says }) => says);
  const fits = (count: number) => words.slice(0, count).join('').length <= MOST.characters;
  let shown = 1;
  while (shown < Math.min(MOST.answers, words.length) && fits(shown + 1)) shown += 1;
  const left = words.length - shown;
  return [...words.slice(0, shown), ...(left > 0 ? [`${left} more`] : [])].join('; or ');
};
