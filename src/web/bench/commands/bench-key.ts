/** Under which id does something made at the bench go? Its moment and chance: `e-<ms in base 36>-<4 letters>`, unlike any other's. */
export const benchKey = (letter: string, atSeconds: number, random: () => number): string => {
  const moment = Math.max(0, Math.round(atSeconds * 1000)).toString(36);
  const chance = Math.floor(random() * 36 ** 4)
    .toString(36)
    .padStart(4, '0');
  return `${letter}-${moment}-${chance}`;
};
