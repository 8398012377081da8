/**
 * Names that Node, browsers and workers share and that touch no outside world, declared for the pure folders, whose
 * compiler settings know neither Node nor the DOM. Anything not listed here is an error there, by intent.
 */
declare class TextEncoder {
  encode(input?: string): Uint8Array;
}
declare class TextDecoder {
  constructor(label?: string, options?: { fatal?: boolean; ignoreBOM?: boolean });
  decode(input?: Uint8Array | ArrayBuffer): string;
}
declare function structuredClone<T>(value: T): T;
