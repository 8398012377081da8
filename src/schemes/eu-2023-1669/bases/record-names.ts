import type { Assessment } from '#record/schema/assessment';

/** How is a part, fastener or tool of a record called in a sentence? Its name, else its id with blanks for hyphens. */
export const recordName = (assessment: Assessment, kind: 'parts' | 'fasteners' | 'tools', id: string): string =>
  assessment[kind]?.[id]?.name ?? id.replaceAll('-', ' ');

/** How is whatever has this id called: a fastener, else a part, else a tool? For sentences that may be about any of them. */
export const anyRecordName = (assessment: Assessment, id: string): string => {
  const kind = (['fasteners', 'parts'] as const).find((candidate) => assessment[candidate]?.[id] !== undefined);
  return recordName(assessment, kind ?? 'tools', id);
};
