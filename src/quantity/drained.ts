/** What does work in pieces come to, for a caller who does not stop between them? The generator's own result. */
export const drained = <T>(pieces: Generator<unknown, T, void>): T => {
  for (;;) {
    const { done, value } = pieces.next();
    if (done) return value;
  }
};
