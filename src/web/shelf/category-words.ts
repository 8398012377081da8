import type { Assessment } from '#record/schema/assessment';

/** Which kinds of product are there, in words? In the order of the record's schema. */
export const CATEGORY_WORDS: Readonly<Record<NonNullable<Assessment['product']['category']>, string>> = {
  smartphone: 'smartphone',
  'slate-tablet': 'slate tablet',
  'feature-phone': 'feature phone',
  'cordless-phone': 'cordless phone',
  laptop: 'laptop',
  'cordless-vacuum': 'cordless vacuum',
  headphones: 'headphones',
  watch: 'watch',
  other: 'other',
};

/** Which kind is it, in words? What is not known says so. */
export const categoryWords = (category: string | undefined): string =>
  category === undefined ? 'not said' : (new Map(Object.entries(CATEGORY_WORDS)).get(category) ?? category);
