import { limits } from './limits.ts';

/** How is a size over a limit refused? By the limit's name and number. */
export const limitWords = (name: keyof typeof limits, value?: unknown) => ({
  value,
  message: `${limitTexts[name]} (limit ${name}: ${limits[name]})`,
  remedy: remedies[name] ?? 'Split the record, or remove what does not belong to it.',
  kind: 'limit' as const,
});

const remedies: Readonly<Partial<Record<keyof typeof limits, string>>> = {
  carriers: 'Name the part that carries it on the bench, not every part around it.',
  partFits: 'Keep the fits of a further campaign in an assessment of their own.',
  swapFits: 'Keep the fits of a further campaign in an assessment of their own.',
  planParts: 'Take out of the bench what is not tried now; on the command line, --part plans for some of the parts.',
  planHosts: 'List under swapBench/hosts those that are used now.',
  planFirmware: 'List under swapBench/firmware those that are tried now.',
  planPieces: 'List under swapBench/donors those that are tried now.',
};

const limitTexts: Readonly<Record<keyof typeof limits, string>> = {
  fileBytes: 'the file is larger than a record may be',
  depth: 'maps and lists lie too deep inside each other',
  nodes: 'the file holds more values than a record may have',
  yamlMarks: 'the file holds more values than a record may have',
  aliases: 'the file uses more aliases than a record may have',
  carriers: 'parts carry one another in a longer chain than a device may have',
  partFits: 'more fits of one part are on record than are diagnosed together',
  swapFits: 'more fits are on record than are diagnosed together',
  planParts: 'more parts are at the bench for swaps than are planned for at once',
  planHosts: 'more specimens are at the bench for swaps than are planned for at once',
  planFirmware: 'more firmware versions are at hand than are planned for at once',
  planPieces: 'more pieces are at hand for one place than are planned for at once',
  listItems: 'the list is longer than any list of a record may be',
  mapItems: 'the map holds more items than any map of a record may',
  textCharacters: 'the text is longer than any text of a record may be',
  problems: 'there are more problems than are kept; the rest of the file was not looked at',
};
