import { randomUUID } from 'node:crypto';
import { closeSync, openSync, readSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { type PlacedItem, type PlacedScores, placesOfScores, type RescoredItem } from '#verdict/rescore/rescoring';
import type { ScoreEnds } from '#verdict/rescore/split-change';

/** A result as the JSON it is written as, and what is needed of it without reading that. */
export interface PackedResult extends PlacedScores {
  readonly item: string;
  readonly json: string;
}

/** How is a result handed over and written? */
export const packedResult = (result: RescoredItem): PackedResult => ({
  item: result.item,
  before: endsAlone(result.before),
  after: endsAlone(result.after),
  json: JSON.stringify(result),
});

/** What is held of one result: its path, where the rest lies in the file, and the ends that its places are made from. */
interface HeldResult extends PlacedScores {
  readonly item: string;
  readonly at: number;
  readonly bytes: number;
}

/**
 * The results of one run, on disk but for what their places need, so that an archive ten times as large takes little more memory.
 * The file belongs to this run alone and goes with it.
 */
export class RunResults {
  private readonly file: string;
  private readonly handle: number;
  private readonly held: HeldResult[] = [];
  private end = 0;
  /** One for all readings: many small ones lie about until they are collected. */
  private buffer = Buffer.alloc(1 << 12);

  /** `folder` must be there. */
  constructor(folder: string) {
    this.file = join(folder, `.run-${randomUUID()}`);
    this.handle = openSync(this.file, 'wx+');
    // Without its name a file goes with the process, even one that is killed; where a system does not take it, it goes at the end.
    if (process.platform !== 'win32') rmSync(this.file);
  }

  /** How many there are. */
  get count(): number {
    return this.held.length;
  }

  /** Takes results in, in any order. */
  add(results: readonly PackedResult[]): void {
    for (const { item, before, after, json } of results) {
      const bytes = Buffer.byteLength(json);
      this.held.push({ item, at: this.end, bytes, before, after });
      this.end += bytes;
    }
    const all = Buffer.from(results.map(({ json }) => json).join(''));
    for (let written = 0; written < all.length; written += writeSync(this.handle, all, written));
  }

  /** All of them with their places, in the order of their paths; read from the file as often as it is walked. */
  placed(): Iterable<PlacedItem> & { readonly length: number } {
    this.held.sort((a, b) => (a.item < b.item ? -1 : a.item > b.item ? 1 : 0));
    const { held } = this;
    const places = placesOfScores(held);
    const read = (one: HeldResult): RescoredItem => this.read(one);
    return {
      length: held.length,
      *[Symbol.iterator]() {
        for (const [index, one] of held.entries()) yield { ...read(one), ...places(index) };
      },
    };
  }

  /** Lets the file go; nothing can be read after it. */
  close(): void {
    closeSync(this.handle);
    rmSync(this.file, { force: true });
  }

  private read({ at, bytes }: HeldResult): RescoredItem {
    if (bytes > this.buffer.length) this.buffer = Buffer.alloc(2 * bytes);
    const { buffer } = this;
    for (let read = 0; read < bytes; ) {
      const more = readSync(this.handle, buffer, read, bytes - read, at + read);
      if (more === 0) throw new Error('the file of this run was cut short while it was read');
      read += more;
    }
    return JSON.parse(buffer.toString('utf8', 0, bytes)) as RescoredItem;
  }
}

const endsAlone = ({ low, high, mayBeNone }: ScoreEnds): ScoreEnds => ({
  ...(low === undefined ? {} : { low }),
  ...(high === undefined ? {} : { high }),
  mayBeNone,
});
