/** Which points does a number of steps earn? Regulation (EU) 2023/1669, Annex IV point 5, table of disassembly depth; beyond 15 steps 1 point. */
export const lawBands = [
  { upTo: 2, points: 5 },
  { upTo: 5, points: 4 },
  { upTo: 10, points: 3 },
  { upTo: 15, points: 2 },
] as const;

/** In which band of the table does a number of steps lie? In words. */
export function bandWords(steps: number): string {
  const index = lawBands.findIndex(({ upTo }) => steps <= upTo);
  const band = lawBands[index];
  if (band === undefined) return 'more than 15 steps';
  const from = lawBands[index - 1];
  return from === undefined ? `up to ${band.upTo} steps` : `${from.upTo + 1} to ${band.upTo} steps`;
}
