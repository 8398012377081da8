import type { Assessment } from '#record/schema/assessment';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import type { BareScore, ScoringAnswer, ScoringRequest } from './rubric-messages.ts';

/** The worker's side of the line. */
export interface ScoringPort {
  postMessage(request: ScoringRequest): void;
  addEventListener(type: 'message', listener: (event: { readonly data: ScoringAnswer }) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message?: string }) => void): void;
  terminate(): void;
}

/** What is known of one assessment's scores; `busy` until those of the last rubrics and document are there. */
export interface SeenScores {
  readonly busy: boolean;
  readonly scores?: readonly BareScore[];
  readonly problem?: string;
}

/** What the screens see: scores by assessment; the very same object until something changes. */
export type ScoresView = ReadonlyMap<string, SeenScores>;

/** Scores documents by house rubrics beside the page. An answer to older rubrics stays to be seen, marked busy. */
export class ScoresClient {
  private readonly start: () => ScoringPort;
  private readonly listeners = new Set<() => void>();
  private port: ScoringPort | undefined;
  private generation = 0;
  private view: ScoresView = new Map();

  constructor(start: () => ScoringPort) {
    this.start = start;
  }

  /** Calls `listener` after every change of the view, until the returned function is called. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** What there is now. */
  readonly look = (): ScoresView => this.view;

  /** Hands a document in, to be scored from now on. */
  hand(assessment: string, revision: number, document: Assessment): void {
    this.mark(assessment);
    this.open().postMessage({ kind: 'document', assessment, revision, document });
  }

  /** Says that a document could not be read. */
  cannotRead(assessment: string, problem: string): void {
    this.show(assessment, { busy: false, problem });
  }

  /** Asks for every document's scores by these rubrics. */
  ask(rubrics: readonly Rubric[]): void {
    this.generation += 1;
    for (const [assessment, seen] of this.view) if (seen.scores || seen.busy) this.mark(assessment);
    this.open().postMessage({ kind: 'rubrics', generation: this.generation, rubrics });
  }

  /** Ends the worker. */
  close(): void {
    this.port?.terminate();
    this.port = undefined;
  }

  private mark(assessment: string): void {
    this.show(assessment, { ...this.view.get(assessment), busy: true });
  }

  private open(): ScoringPort {
    this.port ??= this.begin();
    return this.port;
  }

  private begin(): ScoringPort {
    const port = this.start();
    port.addEventListener('message', ({ data }) => this.answered(data));
    port.addEventListener('error', ({ message }) => {
      const problem = `The engine stopped${message ? `: ${message}` : ''}. Open the screen again.`;
      for (const [assessment, { busy }] of this.view) if (busy) this.show(assessment, { busy: false, problem });
    });
    return port;
  }

  private answered({ generation, assessment, scores, problem }: ScoringAnswer): void {
    const busy = generation < this.generation;
    if (scores) this.show(assessment, { busy, scores });
    else this.show(assessment, { busy, problem: problem ?? '' });
  }

  private show(assessment: string, seen: SeenScores): void {
    this.view = new Map(this.view).set(assessment, seen);
    for (const listener of this.listeners) listener();
  }
}
