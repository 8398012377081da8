import { unknownNameRemedy } from '#record/suggest';
import { NEUTRAL_LIMITS } from '../neutral/neutral-problem.ts';

/** What is wrong at one place of a route problem file? */
export interface NeutralFault {
  /** Id path such as `actions[3].needs[0]`; empty for the file itself. */
  readonly where: string;
  readonly value: unknown;
  readonly what: string;
  readonly remedy: string;
}

/** Faults kept; past this the rest of the file is not looked at. */
const mostFaults = 200;

/** A JSON object as read, its values not looked at yet. */
export type RawObject = Readonly<Record<string, unknown>>;

/** Reads values of a parsed JSON text and collects what is wrong with them, so that all faults are told at once. */
export class NeutralReader {
  readonly faults: NeutralFault[] = [];

  /** Notes a fault. */
  fault(where: string, value: unknown, words: { readonly what: string; readonly remedy: string }): void {
    if (this.faults.length < mostFaults) this.faults.push({ where, value, ...words });
  }

  /** An object with only these keys, `note` besides; anything else is a fault and reads as empty. */
  object(where: string, value: unknown, keys: readonly string[]): RawObject {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      this.fault(where, value, { what: 'This is no object', remedy: `Write an object with ${keys.join(', ')}.` });
      return {};
    }
    const known = [...keys, 'note'];
    for (const key of Object.keys(value).filter((name) => !known.includes(name))) {
      const remedy = unknownNameRemedy(key, known, `Leave it out; known are ${known.join(', ')}.`);
      this.fault(where === '' ? key : `${where}.${key}`, key, { what: 'This field is unknown', remedy });
    }
    return value as RawObject;
  }

  /** A list of at most so many items; anything else is a fault and reads as empty. */
  list(where: string, value: unknown, most: number): readonly unknown[] {
    if (Array.isArray(value) && value.length <= most) return value;
    const [what, shown] = Array.isArray(value)
      ? [`This list is longer than the limit of ${most}`, `${value.length} items`]
      : ['This is no list', value];
    this.fault(where, shown, { what, remedy: `Write a list of at most ${most} items.` });
    return [];
  }

  /** A name of 1 to 200 characters. */
  name(where: string, value: unknown): string {
    if (typeof value === 'string' && value.length > 0 && value.length <= NEUTRAL_LIMITS.idLength) return value;
    const remedy = `Write a text of 1 to ${NEUTRAL_LIMITS.idLength} characters.`;
    this.fault(where, value, { what: 'This is no name', remedy });
    return '';
  }

  /** A duration of 0 or more [s]. */
  seconds(where: string, value: unknown): number {
    if (typeof value === 'number' && value >= 0 && value <= NEUTRAL_LIMITS.seconds) return value;
    const remedy = `Write a number of seconds from 0 to ${NEUTRAL_LIMITS.seconds}.`;
    this.fault(where, value, { what: 'This is no duration', remedy });
    return 0;
  }

  /** Every name once: a repeat is a fault at its place. */
  unique(names: readonly string[], whereOf: (index: number) => string): void {
    const seen = new Set<string>();
    for (const [index, name] of names.entries()) {
      if (seen.has(name)) {
        this.fault(whereOf(index), name, { what: 'This stands here twice', remedy: 'Keep one of the two.' });
      }
      seen.add(name);
    }
  }

  /** A name out of those that are known. */
  reference(where: string, value: unknown, known: readonly string[]): string {
    const name = this.name(where, value);
    if (name !== '' && !known.includes(name)) {
      const remedy = unknownNameRemedy(name, known, 'Name one of the tools.');
      this.fault(where, name, { what: 'There is no such tool', remedy });
    }
    return name;
  }
}
