import { exactText, exactValue } from '../exact-text.ts';
import type { Candidate } from './points.ts';

/** How is one possibility of a metric written, so that it can be read again? `6`, `above 6`, `any lower`, `none`, a word. */
export const candidateText = (at: Candidate): string => {
  switch (at.kind) {
    case 'at':
      return exactText(at.value);
    case 'above':
      return `above ${exactText(at.value)}`;
    case 'least':
      return 'any lower';
    case 'most':
      return 'any higher';
    case 'none':
      return 'none';
    case 'word':
      return at.word;
  }
};

/** Which possibility does a text name? */
export const candidateOf = (text: string): Candidate => {
  if (text === 'any lower') return { kind: 'least' };
  if (text === 'any higher') return { kind: 'most' };
  if (text === 'none') return { kind: 'none' };
  if (text.startsWith('above ')) return { kind: 'above', value: exactValue(text.slice(6)) };
  return /^-?\d/.test(text) ? { kind: 'at', value: exactValue(text) } : { kind: 'word', word: text };
};
