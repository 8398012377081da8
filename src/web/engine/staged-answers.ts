import { answersTo } from './answer-request.ts';
import type { EngineAnswer, EngineRequest } from './engine-messages.ts';

/** How long one stretch of work may keep newer requests waiting [ms]. */
const STRETCH_MILLISECONDS = 25;

/** What the worker lends: a way to answer, a way to be called again after waiting messages, a clock [ms]. */
export interface WorkerSide {
  post(answer: EngineAnswer): void;
  later(work: () => void): void;
  now(): number;
}

/** Works out one request at a time, in stretches; a newer request takes the place of the one being worked out. */
export class StagedAnswers {
  private readonly side: WorkerSide;
  private running: Generator<EngineAnswer | undefined> | undefined;
  private isAwaited = false;

  constructor(side: WorkerSide) {
    this.side = side;
  }

  /** Begins with a request; what was begun before is given up. */
  begin(request: EngineRequest): void {
    this.running = answersTo(request);
    this.await();
  }

  private await(): void {
    if (this.isAwaited) return;
    this.isAwaited = true;
    this.side.later(() => {
      this.isAwaited = false;
      this.workOn();
    });
  }

  private workOn(): void {
    const until = this.side.now() + STRETCH_MILLISECONDS;
    while (this.running) {
      const { done, value } = this.running.next();
      if (done) this.running = undefined;
      else if (value) this.side.post(value);
      if (this.side.now() >= until) break;
    }
    if (this.running) this.await();
  }
}
