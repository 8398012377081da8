import {
  isAlias,
  isCollection,
  isMap as isMapNode,
  isScalar,
  type Node,
  type Pair,
  parseDocument,
  type YAMLMap,
} from 'yaml';
import type { Keys } from '#record/patch/json-pointer';
import { coarserEdits } from './coarser-edits.ts';
import type { DocumentEdit } from './document-edits.ts';
import { blockPair, type FileLanguage, inlineValue, wantsBlock, writtenKey } from './written-value.ts';

/** A stretch of the text that is replaced; an empty stretch is an insertion. */
interface TextEdit {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** What is to be written into which text. */
export interface Splicing {
  readonly edits: readonly DocumentEdit[];
  readonly language: FileLanguage;
  /** The document as it is to read. */
  readonly document: unknown;
}

/**
 * How does a file read after edits, with every other byte as it was? `undefined` where a place cannot be written without
 * rewriting what is around it (aliases, anchors, tags, explicit keys). The caller reads the result again and compares.
 */
export const spliceText = (text: string, { edits, language, document }: Splicing): string | undefined => {
  const root = parseDocument(text, { keepSourceTokens: false }).contents;
  const isInline = (keys: Keys): boolean => mapAt(root, keys)?.flow === true;
  const textEdits: TextEdit[] = [];
  for (const edit of coarserEdits(edits, { document, isInline })) {
    const map = mapAt(root, edit.keys.slice(0, -1));
    const textEdit = map && textEditOf({ text, language, map }, edit);
    if (textEdit === undefined) return undefined;
    textEdits.push(textEdit);
  }
  return applyTextEdits(text, textEdits);
};

/** From the end to the beginning, so that offsets stay true; insertions at one place keep their order. */
const applyTextEdits = (text: string, edits: readonly TextEdit[]): string | undefined => {
  const ordered = edits.map((edit, index) => ({ ...edit, index })).sort((a, b) => b.to - a.to || b.index - a.index);
  let result = text;
  let free = text.length;
  for (const { from, to, text: inserted } of ordered) {
    if (to > free) return undefined;
    result = result.slice(0, from) + inserted + result.slice(to);
    free = from;
  }
  return result;
};

interface Place {
  readonly text: string;
  readonly language: FileLanguage;
  readonly map: YAMLMap;
}

const mapAt = (root: unknown, keys: Keys): YAMLMap | undefined => {
  let node = root;
  for (const key of keys) {
    if (!isPlainMap(node)) return undefined;
    node = pairOf(node, key)?.value;
  }
  return isPlainMap(node) ? node : undefined;
};

const isPlainMap = (node: unknown): node is YAMLMap => isMapNode(node) && !node.anchor && !node.tag;

const pairOf = (map: YAMLMap, key: string): Pair | undefined =>
  map.items.find((pair) => isScalar(pair.key) && String(pair.key.value) === key);

const textEditOf = (place: Place, edit: DocumentEdit): TextEdit | undefined => {
  const key = edit.keys.at(-1) ?? '';
  if (edit.kind === 'add') return place.map.flow ? addInline(place, key, edit.value) : addBlock(place, key, edit.value);
  const index = place.map.items.findIndex((pair) => isScalar(pair.key) && String(pair.key.value) === key);
  const pair = place.map.items[index];
  if (pair === undefined) return undefined;
  if (edit.kind === 'set') return setValue(place, pair, edit.value);
  if (place.map.items.length === 1) return undefined;
  return place.map.flow ? removeInline(place, index) : removeBlock(place, pair);
};

const setValue = ({ text, language }: Place, pair: Pair, value: unknown): TextEdit | undefined => {
  const [key, old] = [pair.key as Node, pair.value as Node | null];
  if (!old?.range || !key.range || isAlias(old) || old.anchor || old.tag) return undefined;
  const end = contentEnd(text, old);
  const written = inlineValue(value, language);
  const isBlock = (isCollection(old) && !old.flow) || /^[|>]/.test(text.slice(old.range[0], old.range[0] + 1));
  if (!isBlock) return { from: old.range[0], to: end, text: written };
  const colon = text.indexOf(':', key.range[1]);
  return colon < 0 ? undefined : { from: colon + 1, to: end, text: ` ${written}` };
};

const addInline = ({ text, language, map }: Place, key: string, value: unknown): TextEdit | undefined => {
  const written = `${writtenKey(key, language)}: ${inlineValue(value, language)}`;
  const last = map.items.at(-1);
  if (!map.range) return undefined;
  if (last === undefined) return { from: map.range[0], to: map.range[1], text: `{ ${written} }` };
  const [start, end] = [startOf(last), endOf(text, last)];
  if (start === undefined || end === undefined) return undefined;
  const indent = lineIndent(text, start);
  return { from: end, to: end, text: indent === undefined ? `, ${written}` : `,\n${indent}${written}` };
};

const addBlock = ({ text, map }: Place, key: string, value: unknown): TextEdit | undefined => {
  const [first, last] = [map.items[0], map.items.at(-1)];
  const start = first && startOf(first);
  const end = last && endOf(text, last);
  const indent = start === undefined ? undefined : lineIndent(text, start);
  if (last === undefined || end === undefined || indent === undefined) return undefined;
  const likeLast = isCollection(last.value) && last.value.flow === true;
  const inline = likeLast || !wantsBlock(value);
  const written = inline
    ? `${writtenKey(key, 'yaml')}: ${inlineValue(value, 'yaml')}`
    : blockPair(key, value, indent.length);
  const at = lineEnd(text, end);
  return { from: at, to: at, text: `\n${indent}${written}` };
};

const removeInline = ({ text, map }: Place, index: number): TextEdit | undefined => {
  const [pair, next, before] = [map.items[index], map.items[index + 1], map.items[index - 1]];
  const start = pair && startOf(pair);
  const end = pair && endOf(text, pair);
  if (next) return edge(start, startOf(next));
  return before ? edge(endOf(text, before), end) : undefined;
};

const removeBlock = ({ text }: Place, pair: Pair): TextEdit | undefined => {
  const [start, end] = [startOf(pair), endOf(text, pair)];
  if (start === undefined || end === undefined || lineIndent(text, start) === undefined) return undefined;
  const lineStart = text.lastIndexOf('\n', start);
  return lineStart < 0 ? undefined : { from: lineStart, to: lineEnd(text, end), text: '' };
};

const edge = (from: number | undefined, to: number | undefined): TextEdit | undefined =>
  from === undefined || to === undefined ? undefined : { from, to, text: '' };

const startOf = (pair: Pair): number | undefined => (pair.key as Node | null)?.range?.[0];

const endOf = (text: string, pair: Pair): number | undefined => {
  const node = (pair.value ?? pair.key) as Node | null;
  return node?.range ? contentEnd(text, node) : undefined;
};

/** Where does a node's own text end, without blank lines and comments after it? */
const contentEnd = (text: string, node: Node): number => {
  const end = node.range?.[1] ?? 0;
  if (isCollection(node) && !node.flow) {
    const last = node.items.at(-1) as Pair | Node | undefined;
    const inner = last && ('key' in last ? ((last.value ?? last.key) as Node | null) : last);
    return inner?.range ? contentEnd(text, inner) : end;
  }
  return text[end - 1] === '\n' ? end - 1 : end;
};

/** The blanks before a place, when nothing else stands before it on its line. */
const lineIndent = (text: string, at: number): string | undefined => {
  const before = text.slice(text.lastIndexOf('\n', at - 1) + 1, at);
  return /^[ \t]*$/.test(before) ? before : undefined;
};

const lineEnd = (text: string, at: number): number => {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end;
};
