import type { Assessment } from '#record/schema/assessment';

/**
 * In which order do the maker's own documents take things off for a goal? Ids of fasteners and parts, each once; empty where the
 * record has no procedure for it. Of two procedures the one the record lists first.
 */
export const routeHints = (document: Assessment, goal: string | undefined): readonly string[] => {
  const procedure = Object.values(document.procedures ?? {}).find((one) => one.for === goal);
  const named = (procedure?.steps ?? []).flatMap(({ target, released, free, aside }) => [
    ...(target === undefined ? [] : [target]),
    ...(released ?? []),
    ...(free ?? []),
    ...(aside ?? []),
  ]);
  return [...new Set(named)];
};
