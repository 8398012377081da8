import type { Assessment } from '#record/schema/assessment';
import type { TrialsAnswer, TrialsRequest } from './open-trials-messages.ts';

/** The worker's side of the line. */
export interface TrialsPort {
  postMessage(request: TrialsRequest): void;
  addEventListener(type: 'message', listener: (event: { readonly data: TrialsAnswer }) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message?: string }) => void): void;
  terminate(): void;
}

/** What the review sees of the answers; the very same object until something changes. */
export interface TrialsView {
  readonly answer?: TrialsAnswer;
  /** The document the answer is of. */
  readonly of?: Assessment;
  /** True from a question until its own answer is there. */
  readonly busy: boolean;
}

/** Asks which trials matter, one document at a time: of those that came meanwhile only the newest is asked about. */
export class TrialsClient {
  private readonly start: () => TrialsPort;
  private readonly listeners = new Set<() => void>();
  private port: TrialsPort | undefined;
  private running: Assessment | undefined;
  private waiting: Assessment | undefined;
  private view: TrialsView = { busy: false };

  constructor(start: () => TrialsPort) {
    this.start = start;
  }

  /** Calls `listener` after every change of the view, until the returned function is called. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** What there is now. */
  readonly look = (): TrialsView => this.view;

  /** Asks about a document; the same object again asks for nothing. */
  ask(document: Assessment): void {
    if ((this.waiting ?? this.running ?? this.view.of) === document) return;
    this.waiting = document;
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
    this.port.postMessage({ document: this.running });
  }

  private begin(): TrialsPort {
    const port = this.start();
    port.addEventListener('message', ({ data }) => this.port === port && this.answered(data));
    port.addEventListener('error', ({ message }) => {
      port.terminate();
      if (this.port !== port) return;
      this.port = undefined;
      const said = message === undefined || message === '' ? 'it did not say why' : message;
      this.answered({ problem: `The engine stopped: ${said}. It starts again with the next change.` });
    });
    return port;
  }

  private answered(answer: TrialsAnswer): void {
    if (!this.running) return;
    const of = this.running;
    this.running = undefined;
    this.show({ answer, of, busy: this.waiting !== undefined });
    this.next();
  }

  private show(view: TrialsView): void {
    this.view = view;
    for (const listener of this.listeners) listener();
  }
}
