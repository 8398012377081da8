/** Is a plain scalar a number that cannot be computed with (`.nan`, `.inf`, `1e999`)? */
export const NOT_A_NUMBER: unique symbol = Symbol('not a number');

const INTEGER = /^[-+]?\d+$/;
const PREFIXED = /^0(?:o[0-7]+|x[0-9a-fA-F]+)$/;
const FLOAT = /^[-+]?(?:\.\d+|\d+(?:\.\d*)?)(?:[eE][-+]?\d+)?$/;
const NOT_FINITE = /^(?:[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN))$/;

const WORDS: ReadonlyMap<string, unknown> = new Map<string, unknown>([
  ['', null],
  ['~', null],
  ['null', null],
  ['Null', null],
  ['NULL', null],
  ['true', true],
  ['True', true],
  ['TRUE', true],
  ['false', false],
  ['False', false],
  ['FALSE', false],
]);

/**
 * What does a plain scalar stand for? YAML 1.2.2, section 10.3.2 (core schema): null, booleans, integers, floats, else
 * the text itself. `yes`, `no`, `on` and `off` are texts.
 */
export const plainScalar = (text: string): unknown => {
  const first = text.charCodeAt(0);
  const numeric = (first >= 0x30 && first <= 0x39) || first === 0x2d || first === 0x2b || first === 0x2e;
  if (!numeric) return text.length <= 5 && WORDS.has(text) ? WORDS.get(text) : text;
  if (INTEGER.test(text) || PREFIXED.test(text) || FLOAT.test(text)) {
    const number = Number(text);
    return Number.isFinite(number) ? number : NOT_A_NUMBER;
  }
  return NOT_FINITE.test(text) ? NOT_A_NUMBER : text;
};
