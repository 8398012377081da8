import { type AliasEvent, EVENT_ID, type Event, getScalarValue, SCALAR_STYLE, type ScalarEvent } from 'js-yaml';
import { limitWords } from '../limit-words.ts';
import { limits } from '../limits.ts';
import type { PathSegment } from '../problem.ts';
import { hasLoneSurrogate, notFinite } from './json-scanner.ts';
import type { WantedNode } from './position-index.ts';
import { duplicateKeyWords, ParseStop, reservedKeys, reservedKeyWords, type SourceProblem } from './source-problem.ts';
import { NOT_A_NUMBER, plainScalar } from './yaml-scalar.ts';

/** What an anchor stands for: the value, and how many values it holds once written out. */
interface Anchored {
  readonly value: unknown;
  readonly nodes: number;
}

/** Builds plain data from the events of one YAML text, noting every fault and the places asked for. */
export class YamlComposer {
  readonly problems: SourceProblem[] = [];
  private readonly text: string;
  private readonly events: readonly Event[];
  private readonly path: PathSegment[] = [];
  private readonly anchors = new Map<string, Anchored | 'open'>();
  private next = 0;
  private nodes = 0;
  private aliases = 0;
  /** Offset of what was read last, for things that have no place of their own. */
  private offset = 0;

  constructor(text: string, events: readonly Event[]) {
    this.text = text;
    this.events = events;
  }

  /** Reads the one document the text may hold. */
  document(wanted: WantedNode): unknown {
    const empty = this.events[0] === undefined || this.events[1] === undefined || isPop(this.events[1]);
    if (empty) {
      this.report(0, { ...EMPTY, value: undefined });
      throw new ParseStop();
    }
    this.next = 1;
    const value = this.value(wanted);
    this.next += 1;
    if (this.next < this.events.length) this.report(this.placeOfMore(), { ...SECOND_DOCUMENT, value: '---' });
    return value;
  }

  private placeOfMore(): number {
    const marker = this.text.slice(this.offset).search(/^---/m);
    return marker < 0 ? this.offset : this.offset + marker;
  }

  private report(offset: number, words: Omit<SourceProblem, 'offset' | 'path'>): void {
    this.problems.push({ offset, path: [...this.path], ...words });
    if (this.problems.length < limits.problems) return;
    this.problems.push({ offset, path: [...this.path], ...limitWords('problems') });
    throw new ParseStop();
  }

  private stopAtLimit(name: keyof typeof limits): never {
    this.report(this.offset, limitWords(name));
    throw new ParseStop();
  }

  private count(nodes: number): void {
    this.nodes += nodes;
    if (this.nodes > limits.nodes) this.stopAtLimit('nodes');
  }

  private value(wanted: WantedNode | undefined): unknown {
    const event = this.take();
    if (event.type === EVENT_ID.ALIAS) return this.alias(event, wanted);
    if (event.type === EVENT_ID.POP || event.type === EVENT_ID.DOCUMENT) throw new ParseStop();
    this.count(1);
    const place = placeOf(event, this.text);
    if (place >= 0) this.offset = place;
    if (wanted && wanted.value < 0 && place >= 0) wanted.value = place;
    if (event.tagStart >= 0)
      this.report(event.tagStart, { ...TAG, value: this.text.slice(event.tagStart, event.tagEnd) });
    const anchor = event.anchorStart >= 0 ? this.text.slice(event.anchorStart, event.anchorEnd) : undefined;
    const before = this.nodes - 1;
    if (anchor !== undefined) this.anchors.set(anchor, 'open');
    const value = this.content(event, wanted);
    if (anchor !== undefined) this.anchors.set(anchor, { value, nodes: this.nodes - before });
    return value;
  }

  private take(): Event {
    const event = this.events[this.next];
    if (!event) throw new ParseStop();
    this.next += 1;
    return event;
  }

  private content(event: Event, wanted: WantedNode | undefined): unknown {
    if (event.type === EVENT_ID.SEQUENCE) return this.list(wanted);
    if (event.type === EVENT_ID.MAPPING) return this.map(wanted);
    return this.scalar(event as ScalarEvent);
  }

  private list(wanted: WantedNode | undefined): unknown[] {
    const list: unknown[] = [];
    while (!this.closes()) {
      if (list.length >= limits.listItems) this.stopAtLimit('listItems');
      this.path.push(list.length);
      list.push(this.value(wanted?.below.get(String(list.length))));
      this.path.pop();
    }
    return list;
  }

  private closes(): boolean {
    const event = this.events[this.next];
    if (event && !isPop(event)) return false;
    this.next += 1;
    return true;
  }

  private map(wanted: WantedNode | undefined): Record<string, unknown> {
    const map: Record<string, unknown> = {};
    for (let items = 0; !this.closes(); items += 1) {
      if (items >= limits.mapItems) this.stopAtLimit('mapItems');
      const key = this.key();
      const keyAt = this.offset;
      const usable = key !== undefined && this.mayAdd(map, key);
      this.path.push(key ?? '');
      const below = usable ? wanted?.below.get(key) : undefined;
      if (below) below.key = keyAt;
      const value = this.value(below);
      if (usable) map[key] = value;
      this.path.pop();
    }
    return map;
  }

  /** Reads a key as it stands in the text: `1` and `true` are the ids "1" and "true". */
  private key(): string | undefined {
    const event = this.events[this.next];
    if (event?.type === EVENT_ID.SCALAR && event.valueStart >= 0 && event.tagStart < 0 && event.anchorStart < 0) {
      this.next += 1;
      this.count(1);
      this.offset = placeOf(event, this.text);
      return this.raw(event);
    }
    this.path.push('');
    this.value(undefined);
    this.path.pop();
    this.report(this.offset, { ...KEY, value: undefined });
    return undefined;
  }

  private mayAdd(map: Record<string, unknown>, key: string): boolean {
    this.path.push(key);
    const words = reservedKeys.has(key)
      ? reservedKeyWords(key)
      : Object.hasOwn(map, key)
        ? duplicateKeyWords(key)
        : key === '<<'
          ? { ...MERGE, value: key }
          : undefined;
    if (words) this.report(this.offset, words);
    this.path.pop();
    return words === undefined;
  }

  private scalar(event: ScalarEvent): unknown {
    if (event.valueStart < 0) return event.style === SCALAR_STYLE.PLAIN ? null : '';
    const raw = this.raw(event);
    if (event.style !== SCALAR_STYLE.PLAIN) return raw;
    const value = plainScalar(raw);
    if (value !== NOT_A_NUMBER) return value;
    this.report(this.offset, notFinite(raw));
    return undefined;
  }

  private raw(event: ScalarEvent): string {
    if (event.valueEnd - event.valueStart > limits.textCharacters) this.stopAtLimit('textCharacters');
    const raw = event.fast ? this.text.slice(event.valueStart, event.valueEnd) : getScalarValue(this.text, event);
    if (event.style === SCALAR_STYLE.DOUBLE_QUOTED && !event.fast && hasLoneSurrogate(raw))
      this.report(this.offset, { ...SURROGATE, value: undefined });
    return raw;
  }

  private alias(event: AliasEvent, wanted: WantedNode | undefined): unknown {
    this.offset = event.anchorStart - 1;
    if (wanted && wanted.value < 0) wanted.value = this.offset;
    this.aliases += 1;
    if (this.aliases > limits.aliases) this.stopAtLimit('aliases');
    const name = this.text.slice(event.anchorStart, event.anchorEnd);
    const anchored = this.anchors.get(name);
    if (anchored === undefined || anchored === 'open') {
      this.report(this.offset, { ...(anchored ? SELF_ALIAS : UNKNOWN_ALIAS), value: `*${name}` });
      return undefined;
    }
    this.count(anchored.nodes);
    return anchored.value;
  }
}

const isPop = (event: Event): boolean => event.type === EVENT_ID.POP;

/** Where does a value begin in the text, quotes included? Below zero when it is empty. */
const placeOf = (event: Event, text: string): number => {
  if (event.type === EVENT_ID.SEQUENCE || event.type === EVENT_ID.MAPPING) return event.start;
  if (event.type !== EVENT_ID.SCALAR) return -1;
  if (event.style === SCALAR_STYLE.SINGLE_QUOTED || event.style === SCALAR_STYLE.DOUBLE_QUOTED)
    return event.valueStart - 1;
  if (event.style === SCALAR_STYLE.PLAIN || event.valueStart < 0) return event.valueStart;
  return firstInked(text, event.valueStart, event.valueEnd);
};

const firstInked = (text: string, start: number, end: number): number => {
  for (let at = start; at < end; at += 1) if (text.charCodeAt(at) > 0x20) return at;
  return start;
};

const EMPTY = {
  message: 'the file is empty',
  remedy: 'Begin with "format:", such as "format: unfasten/assessment", and "version: 1".',
  kind: 'syntax',
} as const;
const SECOND_DOCUMENT = {
  message: 'the file holds more than one YAML document',
  remedy: 'Keep one document a file; remove the "---" and what follows.',
  kind: 'syntax',
} as const;
const TAG = {
  message: 'a record has no YAML tags',
  remedy: 'Remove the tag; put a text in quotes where it looks like a number.',
  kind: 'syntax',
} as const;
const MERGE = {
  message: 'a record has no YAML merge keys',
  remedy: 'Write the fields out where they belong.',
  kind: 'syntax',
} as const;
const KEY = {
  message: 'a field name or id is expected here',
  remedy: 'Write a plain word before the colon, without list, map, alias, anchor or tag.',
  kind: 'syntax',
} as const;
const SURROGATE = {
  message: 'the text holds half of a surrogate pair',
  remedy: 'Write the character itself.',
  kind: 'syntax',
} as const;
const SELF_ALIAS = {
  message: 'the alias stands inside the very value it names',
  remedy: 'Write the value out.',
  kind: 'cycle',
} as const;
const UNKNOWN_ALIAS = {
  message: 'there is no anchor of this name before the alias',
  remedy: 'Write the value out.',
  kind: 'unknown-reference',
} as const;
