import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';

/** What a piece of evidence can be. */
export type EvidenceKind = NonNullable<Assessment['evidence']>[string]['kind'];

/** A file the server has, as it is to go on record. */
export interface TakenFile {
  /** SHA-256 of its bytes, 64 hex digits. */
  readonly sha256: string;
  /** Its name as the browser gave it: any text. */
  readonly name: string;
  readonly kind: EvidenceKind;
  readonly says: string;
}

/** Under which id does evidence stand on record that has these bytes? Undefined where none has. */
export const evidenceOf = ({ evidence = {} }: Assessment, sha256: string): string | undefined =>
  Object.keys(evidence).find((key) => evidence[key]?.sha256 === sha256);

/**
 * Which patch puts a file on record, and under which id? The id follows from its bytes. Its name stands as a name that may be
 * written into any folder and that no other file there has; the name it came with stays as its source where it differs.
 */
export const evidencePatch = (
  document: Assessment,
  { sha256, name, kind, says }: TakenFile,
): { readonly key: string; readonly patch: Patch } => {
  const short = `${kind}-${sha256.slice(0, 12)}`;
  const key = document.evidence?.[short] === undefined ? short : `${kind}-${sha256}`;
  const file = freeName(document, plainName(name), sha256);
  const said = says.trim();
  const value = {
    kind,
    ...(said === '' ? {} : { says: said }),
    ...(file === undefined ? {} : { file }),
    sha256,
    ...(file === name ? {} : { source: `file “${name.slice(0, MOST_SOURCE)}”` }),
  };
  const opened: Patch = document.evidence === undefined ? [{ op: 'add', path: '/evidence', value: {} }] : [];
  return { key, patch: [...opened, { op: 'add', path: `/evidence/${key}`, value }] };
};

/** What is a file probably, by its media type? The person may say otherwise. */
export const kindOfType = (type: string): EvidenceKind =>
  type.startsWith('image/') ? 'photo' : type.startsWith('video/') ? 'video' : 'document';

/** Longest name on record [characters]; below what every file system takes. */
const MOST_NAME = 120;
/** Longest name kept as it came [characters]. */
const MOST_SOURCE = 1000;

/** A name with the same letters that means nothing to any file system: no way up, no device, no ending dot or space. */
const plainName = (name: string): string => {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are among the characters that no name may hold
  const plain = name.replaceAll(/[\\/:*?"<>|\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g, '_');
  const { stem, ending } = parts(plain.replace(/^[\s.]+/, '').replace(/[\s.]+$/, ''));
  return `${[...stem].slice(0, MOST_NAME - ending.length).join('')}${ending}`;
};

const parts = (name: string): { readonly stem: string; readonly ending: string } => {
  const [ending = ''] = /\.[A-Za-z0-9]{1,10}$/.exec(name) ?? [];
  return { stem: name.slice(0, name.length - ending.length), ending };
};

/** Cameras give the same names again and again: a name that is taken gets the beginning of the SHA-256. */
const freeName = ({ evidence = {} }: Assessment, name: string, sha256: string): string | undefined => {
  if (name === '') return undefined;
  const isTaken = Object.values(evidence).some(({ file }) => file?.toLowerCase() === name.toLowerCase());
  const { stem, ending } = parts(name);
  return isTaken ? `${stem}-${sha256.slice(0, 12)}${ending}` : name;
};
