/**
 * Who waits for changes? Everybody who follows an assessment is woken when the ledger took one, or an edition of a laboratory's
 * readings, which bear on every assessment; and reads it from there.
 */
export class Followers {
  private readonly wakers = new Map<string, Set<() => void>>();
  private following = 0;
  private readonly most: number;

  /** `most` followers at once are let in, all assessments together. */
  constructor(most: number) {
    this.most = most;
  }

  /** May one more follow? */
  get hasRoom(): boolean {
    return this.following < this.most;
  }

  /** Calls `wake` at every later change of an assessment or of the laboratory, until the returned function is called. */
  follow(assessment: string, wake: () => void): () => void {
    const wakers = this.wakers.get(assessment) ?? new Set();
    this.wakers.set(assessment, wakers.add(wake));
    this.following += 1;
    return () => {
      if (!wakers.delete(wake)) return;
      this.following -= 1;
      if (wakers.size === 0) this.wakers.delete(assessment);
    };
  }

  /** Wakes whoever follows an assessment. */
  wake(assessment: string): void {
    for (const wake of this.wakers.get(assessment) ?? []) wake();
  }
  /** Wakes whoever follows any. */
  wakeAll(): void {
    for (const assessment of this.wakers.keys()) this.wake(assessment);
  }
}
