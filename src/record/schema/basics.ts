import { z } from 'zod';
import { PRIORITY_ROLES } from './priority-roles.ts';

/** Longest text the record takes in one field [characters]. */
const MAX_TEXT = 10_000;
/** Longest id [characters]. */
const MAX_ID = 80;

/**
 * Which words can name nothing? Those every JavaScript object answers to: a lookup by such an id would find something that
 * nobody recorded.
 */
export const RESERVED_WORDS: readonly string[] = [
  '__defineGetter__',
  '__defineSetter__',
  '__lookupGetter__',
  '__lookupSetter__',
  '__proto__',
  'constructor',
  'hasOwnProperty',
  'isPrototypeOf',
  'propertyIsEnumerable',
  'prototype',
  'toLocaleString',
  'toString',
  'valueOf',
];

/** What may name a thing? Letters, digits, `-`, `_` and `.`, beginning with a letter or digit; never a prototype key. */
export const id = z
  .string()
  .max(MAX_ID)
  .regex(/^[A-Za-z0-9][A-Za-z0-9._-]*$/, 'an id has letters, digits, "-", "_" or "." and begins with a letter or digit')
  .refine((value) => !RESERVED_WORDS.includes(value), 'this word cannot be an id');

/** A reference to a thing by its key in its collection: an id. @alias */
export const key = id;

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters that are refused
const UNWRITABLE = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/;

/** Which control character that no text may hold comes first, as `U+001B`? Undefined where there is none. */
export const controlIn = (text: string): string | undefined => {
  const [found] = UNWRITABLE.exec(text) ?? [];
  return found && `U+${found.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}`;
};

/**
 * Free text as the assessor wrote it, of control characters tabs and line ends only: what a file may not hold as it stands, it may
 * not hold as an escape either.
 */
export const text = z
  .string()
  .max(MAX_TEXT)
  .refine((value) => controlIn(value) === undefined, {
    error: ({ input }) => `the text holds the control character ${controlIn(String(input))}`,
    params: { remedy: 'Take it out.' },
  });

/** A quantity as text with its unit: `3.1 ± 0.1 g`, `17 Wh`, `2 to 3 min`. Its dimension is checked where it is used. */
export const quantityText = z
  .string()
  .min(1)
  .max(120)
  .describe('quantity with unit, e.g. "3.1 ± 0.1 g", "17 Wh", "2 to 3 min"');

/** Longest duration [s], some three years. */
export const MOST_SECONDS = 1e8;

/** A duration: a bare number is seconds; text carries its unit (`8 min`, `45 ± 5 s`). */
export const duration = z
  .union([z.number().min(0).max(MOST_SECONDS), quantityText])
  .describe('seconds, or a quantity of time such as "8 min"');

/** A calendar day, ISO 8601. */
export const day = z.iso.date();
/** A moment with its offset, RFC 3339. */
export const moment = z.iso.datetime({ offset: true });

/** How well is a fact of supply established? Only `established` settles a figure; the rest leave it open. */
export const standing = z.enum(['established', 'announced', 'expected', 'unknown']);

/** Where a fact comes from: a source in words, the day it was seen, evidence ids. */
export const sourced = {
  source: text.optional().describe('where this is stated'),
  date: day.optional().describe('day it was seen or stated'),
  evidence: z.array(id).max(200).optional().describe('evidence ids'),
  note: text.optional(),
};

/** A collection is a map from stable ids to items, so that a fact's address is its id path. */
export const mapOf = <T extends z.ZodType>(item: T) => z.record(id, item);

/** The priority parts of Regulation (EU) 2023/1669, Annex IV point 5, and the other roles the law or the bench names. */
export const role = z.enum([
  ...PRIORITY_ROLES,
  'main-board',
  'audio-connector',
  'tray',
  'antenna',
  'sensor',
  'vibration-motor',
  'wireless-coil',
  'cable',
  'bracket',
  'shield',
  'cover',
  'frame',
  'foil',
  'motor',
  'filter',
  'housing',
  'power-unit',
  'capacitor',
  'other',
]);

/** The atoms of bench work: off, and back. */
const OFF_ACTIONS = [
  'unscrew',
  'pry',
  'release-clips',
  'heat',
  'cool',
  'dissolve',
  'pull',
  'peel',
  'cut',
  'unplug',
  'desolder',
  'lift',
  'fold-aside',
  'turn-over',
  'clean',
  'discharge',
  'pair',
  'calibrate',
  'test',
] as const;
/** The atoms of putting back. */
const BACK_ACTIONS = [
  'fit',
  'seat',
  'plug',
  'fasten',
  'bond',
  'press',
  'cure',
  'close',
  'power-on',
  'function-test',
] as const;
/** One atom of bench work. */
export const action = z.enum([...OFF_ACTIONS, ...BACK_ACTIONS]);
/** One atom of bench work, as a type. */
export type Action = z.infer<typeof action>;
