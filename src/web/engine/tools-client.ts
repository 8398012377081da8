import type { ToolsAnswer, ToolsRequest } from './engine-messages.ts';

/** The engine's side of the line, as far as tools are asked about. */
export interface ToolsPort {
  postMessage(request: ToolsRequest): void;
  addEventListener(type: 'message', listener: (event: { readonly data: ToolsAnswer }) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message?: string }) => void): void;
  terminate(): void;
}

/** What a screen sees of the answers; the very same object until something changes. */
export interface ToolsView {
  readonly answer?: ToolsAnswer;
  /** True from a question until its own answer is there. */
  readonly busy: boolean;
}

/** Asks the engine about tools, one question at a time: of those that came meanwhile only the newest is put. */
export class ToolsClient {
  private readonly start: () => ToolsPort;
  private readonly listeners = new Set<() => void>();
  private port: ToolsPort | undefined;
  private generation = 0;
  private running: ToolsRequest | undefined;
  private waiting: ToolsRequest | undefined;
  private view: ToolsView = { busy: false };

  constructor(start: () => ToolsPort) {
    this.start = start;
  }

  /** Calls `listener` after every change of the view, until the returned function is called. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** What there is now. */
  readonly look = (): ToolsView => this.view;

  /** Asks how parts are reached with the tools of the question. */
  ask(question: Omit<ToolsRequest, 'generation'>): void {
    this.generation += 1;
    this.waiting = { ...question, generation: this.generation };
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

  private begin(): ToolsPort {
    const port = this.start();
    port.addEventListener('message', ({ data }) => this.answered(data));
    port.addEventListener('error', ({ message }) => {
      const { generation = 0, revision = 0, tools = [] } = this.running ?? {};
      port.terminate();
      if (this.port === port) this.port = undefined;
      const said = message === undefined || message === '' ? 'it did not say why' : message;
      this.answered({ generation, revision, tools, problem: `The engine stopped: ${said}.` });
    });
    return port;
  }

  private answered(answer: ToolsAnswer): void {
    if (answer.generation !== this.running?.generation) return;
    this.running = undefined;
    this.show({ answer, busy: this.waiting !== undefined });
    this.next();
  }

  private show(view: ToolsView): void {
    this.view = view;
    for (const listener of this.listeners) listener();
  }
}
