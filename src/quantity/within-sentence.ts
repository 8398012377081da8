/** How does a phrase read inside a sentence? With a small first letter, unless it begins with an abbreviation or initials. */
export const withinSentence = (phrase: string): string =>
  /^\p{Lu}(?:\p{Ll}|\s|$)/u.test(phrase) ? `${phrase.slice(0, 1).toLowerCase()}${phrase.slice(1)}` : phrase;
