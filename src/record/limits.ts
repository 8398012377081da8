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
  /** Fits of one part that are diagnosed: what excludes what is looked for among all of them, in the cube of their number at worst. */
  partFits: 500,
  /** Fits of all parts that are diagnosed. */
  swapFits: 10_000,
  /** Parts that runs are planned for at once. */
  planParts: 60,
  /** Specimens that parts are fitted into in one plan. */
  planHosts: 12,
  /** Firmware versions of one plan. */
  planFirmware: 12,
  /** Pieces for one place in one plan, besides the own parts of the hosts. */
  planPieces: 24,
  /** Items of one list. */
  listItems: 10_000,
  /** Items of one map. */
  mapItems: 250_000,
  /** Characters of one text; the schema sets lower limits a field. */
  textCharacters: 1_000_000,
  /** Problems kept; past this the rest of the file is not looked at, which the last problem says. */
  problems: 2_000,
} as const;
