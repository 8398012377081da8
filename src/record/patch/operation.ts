/** A value as JSON carries it. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [member: string]: Json };

/** One operation of a JSON Patch (RFC 6902, section 4), as the server takes it: on id-keyed maps, never into a list. */
export type Operation =
  | { readonly op: 'add'; readonly path: string; readonly value: Json }
  | { readonly op: 'replace'; readonly path: string; readonly value: Json }
  | { readonly op: 'test'; readonly path: string; readonly value: Json }
  | { readonly op: 'remove'; readonly path: string }
  | { readonly op: 'move'; readonly from: string; readonly path: string }
  | { readonly op: 'copy'; readonly from: string; readonly path: string };

/** What an act does to a document. */
export type Patch = readonly Operation[];
