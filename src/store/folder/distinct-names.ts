import { isPlainFileName, MAX_NAME } from './evidence-names.ts';

/** A name as a file system may read it that tells neither case nor the composing of letters apart. */
const folded = (name: string): string => name.normalize('NFD').toUpperCase().normalize('NFC');

/**
 * Names of files in one folder, none of which another hides on any file system: neither by case, nor by Unicode
 * normalisation, nor by a folder of the name of a file. What a name is given depends only on what was claimed before it.
 */
export class DistinctNames {
  /** SHA-256 by the name as it is written. */
  readonly files = new Map<string, string>();
  readonly #written = new Map<string, string>();
  readonly #folders = new Set<string>();

  /** Under which name does this content lie? The one wanted, where it is free; the same content lies there once. */
  claim(wanted: string, sha256: string): string {
    for (const candidate of candidates(wanted, sha256)) {
      const there = this.#written.get(folded(candidate));
      if (there !== undefined && this.files.get(there) === sha256) return there;
      if (this.#isFree(candidate)) return this.#take(candidate, sha256);
    }
    throw new RangeError(`no name is left for ${wanted}`);
  }

  #take(name: string, sha256: string): string {
    this.files.set(name, sha256);
    this.#written.set(folded(name), name);
    for (const above of foldersOf(name)) this.#folders.add(above);
    return name;
  }

  #isFree(name: string): boolean {
    const key = folded(name);
    const isTaken = this.#written.has(key) || this.#folders.has(key);
    return !isTaken && isPlainFileName(name) && !foldersOf(name).some((above) => this.#written.has(above));
  }
}

/** The folders a name lies in, as a file system may read them. */
const foldersOf = (name: string): readonly string[] => {
  const segments = folded(name).split('/');
  return segments.slice(1).map((_, index) => segments.slice(0, index + 1).join('/'));
};

/** Beginnings of the SHA-256 that set a name apart [hex digits], the shortest first. */
const MARK_DIGITS: readonly number[] = [12, 64];

/** The name wanted, then with more and more of its SHA-256; without its folders where one of those is a file; then counted. */
function* candidates(wanted: string, sha256: string): Generator<string> {
  yield wanted;
  const bare = wanted.replaceAll('/', '-');
  for (const name of [wanted, bare]) for (const digits of MARK_DIGITS) yield marked(name, sha256.slice(0, digits));
  for (let count = 2; ; count += 1) yield marked(bare, `${sha256}-${count}`);
}

/** A name with a mark before its ending, the stem cut where it would become too long. */
const marked = (name: string, mark: string): string => {
  const [ending = ''] = /\.[A-Za-z0-9]{1,10}$/.exec(name) ?? [];
  const room = MAX_NAME - ending.length - mark.length - 1;
  let stem = '';
  for (const letter of name.slice(0, name.length - ending.length))
    if (stem.length + letter.length <= room) stem += letter;
    else break;
  return `${stem.replace(/\s+$/, '')}-${mark}${ending}`;
};
