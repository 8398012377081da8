/** A question that is put to the engine under a number that counts up. */
interface Numbered {
  readonly generation: number;
}

/** The engine's side of the line for questions of one kind. */
export interface NewestPort<Question, Answer> {
  postMessage(question: Question): void;
  addEventListener(type: 'message', listener: (event: { readonly data: Answer }) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message?: string }) => void): void;
  terminate(): void;
}

/** What a screen sees of the answers; the very same object until something changes. */
export interface NewestView<Question, Answer> {
  readonly answer?: Answer;
  /** The question that was answered, to the object. */
  readonly answered?: Question;
  /** True from a question until its own answer is there. */
  readonly busy: boolean;
}

/** Puts questions of one kind to the engine, one at a time: of those that came meanwhile only the newest is put. */
export class NewestClient<Question extends Numbered, Answer extends Numbered> {
  private readonly start: () => NewestPort<Question, Answer>;
  private readonly failed: (question: Question, words: string) => Answer;
  private readonly listeners = new Set<() => void>();
  private port: NewestPort<Question, Answer> | undefined;
  private generation = 0;
  private running: Question | undefined;
  private waiting: Question | undefined;
  private view: NewestView<Question, Answer> = { busy: false };

  /** `failed` says what stands for an answer where the engine stopped, and why it did, in words. */
  constructor(start: () => NewestPort<Question, Answer>, failed: (question: Question, words: string) => Answer) {
    this.start = start;
    this.failed = failed;
  }

  /** Calls `listener` after every change of the view, until the returned function is called. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** What there is now. */
  readonly look = (): NewestView<Question, Answer> => this.view;

  /** The question put last; where the worker was ended before its answer, the one answered before. */
  protected get last(): Question | undefined {
    return this.waiting ?? this.running ?? this.view.answered;
  }

  /** Puts a question; the number is given here. */
  ask(question: Omit<Question, 'generation'>): void {
    this.generation += 1;
    this.waiting = { ...question, generation: this.generation } as Question;
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

  private begin(): NewestPort<Question, Answer> {
    const port = this.start();
    port.addEventListener('message', ({ data }) => this.answered(data));
    port.addEventListener('error', ({ message }) => {
      port.terminate();
      if (this.port !== port) return;
      this.port = undefined;
      const said = message === undefined || message === '' ? 'it did not say why' : message;
      if (this.running) this.answered(this.failed(this.running, `The engine stopped: ${said}.`));
    });
    return port;
  }

  private answered(answer: Answer): void {
    const answered = this.running;
    if (answer.generation !== answered?.generation) return;
    this.running = undefined;
    this.show({ answer, answered, busy: this.waiting !== undefined });
    this.next();
  }

  private show(view: NewestView<Question, Answer>): void {
    this.view = view;
    for (const listener of this.listeners) listener();
  }
}
