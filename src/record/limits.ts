/**
 * How large may a record be? A file beyond one of these is refused with the limit's name; nothing is cut silently. The
 * sizes leave room for 100,000 log entries with some fifteen fields each.
 */
export const limits = {
  /** Bytes of one file. */
  fileBytes: 64 * 1024 * 1024,
  /** Maps and lists inside each other. */
  depth: 32,
  /** Values of any kind in one file, aliases counted as often as they are used. */
  nodes: 5_000_000,
  /** Marks that can open a YAML value, counted before parsing: an upper estimate of the parser's own work. */
  yamlMarks: 4_500_000,
  /** Aliases (`*name`) in one YAML file. */
  aliases: 1_000,
  /** Parts that carry one another in a chain (`within`). */
  carriers: 32,
  /** Items of one list. */
  listItems: 10_000,
  /** Items of one map. */
  mapItems: 250_000,
  /** Characters of one text; the schema sets lower limits a field. */
  textCharacters: 1_000_000,
  /** Problems kept; past this the rest of the file is not looked at, which the last problem says. */
  problems: 2_000,
} as const;
