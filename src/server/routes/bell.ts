/** What was heard while waiting? */
export type Heard = 'rung' | 'quiet' | 'closed';

/** A bell that one listener waits for. Rung while nobody waits, it is heard at once the next time. */
export class Bell {
  private isRung = false;
  private isClosed = false;
  private wake: (() => void) | undefined;

  /** Something happened. */
  ring(): void {
    this.isRung = true;
    this.wake?.();
  }

  /** Nothing will happen any more. */
  close(): void {
    this.isClosed = true;
    this.wake?.();
  }

  /** Waits until the bell rings or closes, at most so long [ms]. */
  async wait(milliseconds: number): Promise<Heard> {
    if (!this.isRung && !this.isClosed) await this.sleep(milliseconds);
    const heard = this.isClosed ? 'closed' : this.isRung ? 'rung' : 'quiet';
    this.isRung = false;
    return heard;
  }

  private async sleep(milliseconds: number): Promise<void> {
    await new Promise<void>((resolve) => {
      const timer = setTimeout(resolve, milliseconds);
      this.wake = () => {
        clearTimeout(timer);
        resolve();
      };
    });
    this.wake = undefined;
  }
}
