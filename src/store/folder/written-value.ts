import { stringify } from 'yaml';
import { isMap } from './document-edits.ts';

/** The two languages of an assessment file. */
export type FileLanguage = 'yaml' | 'json';

/** How does a value read in one line? */
export const inlineValue = (value: unknown, language: FileLanguage): string => {
  if (language === 'json') return JSON.stringify(value);
  return stringify(value, { collectionStyle: 'flow', lineWidth: 0 }).trimEnd();
};

/** How does a key read before its colon? */
export const writtenKey = (key: string, language: FileLanguage): string => inlineValue(key, language);

/** How does `key: value` read over several lines at an indentation? Without the first line's indentation and the last line's end. */
export const blockPair = (key: string, value: unknown, indent: number): string => {
  const text = stringify({ [key]: value }, { lineWidth: 0 }).trimEnd();
  return text.replaceAll('\n', `\n${' '.repeat(indent)}`);
};

/** Does a value need a block of its own to be legible? */
export const wantsBlock = (value: unknown): boolean => isMap(value) && Object.keys(value).length > 0;
