import type { Assessment } from '#record/schema/assessment';
import type { SwapsVerdict } from '#verdict/swaps/swaps-verdict';
import type { BenchPlan } from './plan-of-bench.ts';
import type { NextAnswer, SwapsAnswer, SwapsRequest } from './swaps-messages.ts';

/** The worker's side of the line. */
export interface SwapsPort {
  postMessage(request: SwapsRequest): void;
  addEventListener(type: 'message', listener: (event: { readonly data: SwapsAnswer }) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message?: string }) => void): void;
  terminate(): void;
}

/** What the screen sees of the answers; each with the document it is of. The very same object until something changes. */
export interface SwapsView {
  readonly swaps?: SwapsVerdict | undefined;
  readonly swapsOf?: Assessment;
  readonly next?: NextAnswer;
  readonly nextOf?: Assessment;
  readonly plan?: BenchPlan;
  readonly planOf?: Assessment;
  /** In words, why there is no answer for the last document. */
  readonly problem?: string;
  /** True from a question until its whole answer is there. */
  readonly busy: boolean;
}

/** Asks what the swaps came to, one document at a time: of those that came meanwhile only the newest is asked about. */
export class SwapsClient {
  private readonly start: () => SwapsPort;
  private readonly listeners = new Set<() => void>();
  private port: SwapsPort | undefined;
  private running: SwapsRequest | undefined;
  private waiting: SwapsRequest | undefined;
  private view: SwapsView = { busy: false };

  constructor(start: () => SwapsPort) {
    this.start = start;
  }

  /** Calls `listener` after every change of the view, until the returned function is called. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** What there is now. */
  readonly look = (): SwapsView => this.view;

  /** Asks about a document. */
  ask(request: SwapsRequest): void {
    this.waiting = request;
    this.show({ ...this.view, busy: true });
    this.next();
  }

  /** Ends the worker. */
  close(): void {
    this.port?.terminate();
    this.port = undefined;
    this.running = undefined;
    this.waiting = undefined;
  }

  private next(): void {
    if (this.running || !this.waiting) return;
    this.running = this.waiting;
    this.waiting = undefined;
    this.port ??= this.begin();
    this.port.postMessage(this.running);
  }

  private begin(): SwapsPort {
    const port = this.start();
    port.addEventListener('message', ({ data }) => this.port === port && this.answered(data));
    port.addEventListener('error', ({ message }) => {
      port.terminate();
      if (this.port !== port) return;
      this.port = undefined;
      const said = message === undefined || message === '' ? 'it did not say why' : message;
      const problem = `The engine stopped: ${said}. It starts again with the next change.`;
      this.answered({ stage: 'problem', problem, last: true });
    });
    return port;
  }

  private answered(answer: SwapsAnswer): void {
    if (!this.running) return;
    const { document } = this.running;
    const { problem: _mended, ...view } = this.view;
    if (answer.last) this.running = undefined;
    const busy = this.running !== undefined || this.waiting !== undefined;
    this.show({ ...(answer.stage === 'swaps' ? view : this.view), ...seenIn(answer, document), busy });
    this.next();
  }

  private show(view: SwapsView): void {
    this.view = view;
    for (const listener of this.listeners) listener();
  }
}

const seenIn = (answer: SwapsAnswer, of: Assessment): Partial<SwapsView> => {
  if (answer.stage === 'swaps') return { swaps: answer.swaps, swapsOf: of };
  if (answer.stage === 'next') return { next: answer.next, nextOf: of };
  if (answer.stage === 'plan') return { plan: answer.plan, planOf: of };
  return { problem: answer.problem };
};
