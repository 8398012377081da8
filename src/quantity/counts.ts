/** How does a count read with its noun? `1 step`, `8 steps`; a noun with another plural names it. */
export function counted(count: number, singular: string, plural = `${singular}s`): string {
  return `${count} ${count === 1 ? singular : plural}`;
}

/** How does a stretch from low to high read? One figure when both are the same. */
export function stretch(low: number | string, high: number | string): string {
  return low === high ? String(low) : `${low}–${high}`;
}

/** How does a list read in a sentence? `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[], last = 'and'): string {
  if (words.length < 2) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} ${last} ${words[words.length - 1]}`;
}

/** How does a sentence start? Its first letter in capitals; other scripts and figures as they are. */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
