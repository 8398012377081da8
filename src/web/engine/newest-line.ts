/** A question that is put to a worker, or its answer, under a number that counts up. */
export interface Numbered {
  readonly generation: number;
}

/** The worker's side of the line for questions of one kind. */
export interface NewestPort<Question, Answer> {
  postMessage(question: Question): void;
  addEventListener(type: 'message', listener: (event: { readonly data: Answer }) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message?: string }) => void): void;
  terminate(): void;
}

/** What a screen sees: what the answers left, and whether more is to come. */
export type NewestSeen<Seen> = Seen & {
  /** True from a question until its own whole answer is there. */
  readonly busy: boolean;
};

/** How is a line begun? */
export interface LineEnds<Question, Answer> {
  readonly start: () => NewestPort<Question, Answer>;
  /** What stands for an answer where the worker stopped; why it did, in words. */
  readonly failed: (question: Question, words: string) => Answer;
}

/**
 * Puts questions of one kind to a worker, one at a time: of those that came meanwhile only the newest is put. An answer may come in
 * stages; what is to be seen of them each kind says itself.
 */
export abstract class NewestLine<Question extends Numbered, Answer extends Numbered, Seen extends object> {
  private readonly ends: LineEnds<Question, Answer>;
  private readonly listeners = new Set<() => void>();
  private port: NewestPort<Question, Answer> | undefined;
  private generation = 0;
  private running: Question | undefined;
  private waiting: Question | undefined;
  private view: NewestSeen<Seen>;

  constructor(ends: LineEnds<Question, Answer>, nothing: Seen) {
    this.ends = ends;
    this.view = { ...nothing, busy: false };
  }

  /** What is to be seen once an answer, or a stage of one, is there? */
  protected abstract seen(answer: Answer, question: Question, before: Seen): Seen;

  /** Is the question answered by this, or does more come? */
  protected abstract isLast(answer: Answer): boolean;

  /** Calls `listener` after every change of the view, until the returned function is called. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** What there is now; the very same object until something changes. */
  readonly look = (): NewestSeen<Seen> => this.view;

  /** The newest question that has no whole answer yet. */
  protected get unanswered(): Question | undefined {
    return this.waiting ?? this.running;
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
    const port = this.ends.start();
    port.addEventListener('message', ({ data }) => this.answered(data));
    port.addEventListener('error', ({ message }) => {
      port.terminate();
      if (this.port !== port) return;
      this.port = undefined;
      const said = message === undefined || message === '' ? 'it did not say why' : message;
      if (this.running) this.answered(this.ends.failed(this.running, `The engine stopped: ${said}.`));
    });
    return port;
  }

  private answered(answer: Answer): void {
    const question = this.running;
    if (!question || answer.generation !== question.generation) return;
    if (this.isLast(answer)) this.running = undefined;
    const busy = this.unanswered !== undefined;
    this.show({ ...this.seen(answer, question, this.view), busy });
    this.next();
  }

  private show(view: NewestSeen<Seen>): void {
    this.view = view;
    for (const listener of this.listeners) listener();
  }
}
