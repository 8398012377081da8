import type { Assessment } from '#record/schema/assessment';
import type { Laboratory } from '#verdict/laboratory/laboratory-schema';
import type { Outlook } from '#verdict/outlook/outlook';
import type { FiguresVerdict, Verdict } from '#verdict/verdict';
import type { EngineAnswer, EngineRequest } from './engine-messages.ts';

/** The engine's side of the line: a worker, or whatever answers like one. */
export interface EnginePort {
  postMessage(request: EngineRequest): void;
  addEventListener(type: 'message', listener: (event: { readonly data: EngineAnswer }) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message?: string }) => void): void;
  terminate(): void;
}

/** What the screens see of the engine; the very same object until something changes. */
export interface EngineView {
  /** The newest figures there are; they come before the rest of their verdict. */
  readonly figures?: FiguresVerdict;
  /** The document they were computed from, to the object, and its revision. */
  readonly figuresOf?: Assessment;
  readonly figuresRevision?: number;
  /** The last whole verdict there was; it may be of an older document than the figures. */
  readonly verdict?: Verdict;
  /** The document the verdict was computed from, to the object, and its revision. */
  readonly of?: Assessment;
  readonly revision?: number;
  /** The last outlook there was, if one is wanted; it may be of an older document than the verdict. */
  readonly outlook?: Outlook;
  /** The document the outlook was computed from, to the object, and its revision. */
  readonly outlookOf?: Assessment;
  readonly outlookRevision?: number;
  /** True from the moment another document was handed in until its outlook is whole. */
  readonly outlookBusy?: boolean;
  /** In words, why there is no verdict of the last document. */
  readonly problem?: string;
  /** True from the moment another document was handed in until its whole answer is there: what is shown is marked until then. */
  readonly busy: boolean;
}

/**
 * Computes verdicts beside the page. Every document goes to the engine at once, which gives up the one before it; an answer
 * never replaces that of a later document.
 */
export class EngineClient {
  private readonly start: () => EnginePort;
  private readonly wants: EngineRequest['wants'];
  private readonly listeners = new Set<() => void>();
  private readonly revisions = new WeakMap<Assessment, number>();
  private readonly asked = new Map<number, Assessment>();
  private port: EnginePort | undefined;
  private generation = 0;
  private settled: Assessment | undefined;
  private laboratory: Laboratory | undefined;
  /** The request whose verdict is there and whose outlook is awaited. */
  private looking: { readonly generation: number; readonly document: Assessment } | undefined;
  private view: EngineView = { busy: false };

  constructor(start: () => EnginePort, wants?: EngineRequest['wants']) {
    this.start = start;
    this.wants = wants;
  }

  /** Calls `listener` after every change of the view, until the returned function is called. */
  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  /** What there is now. */
  readonly look = (): EngineView => this.view;

  /**
   * Asks for the verdict of a document; the same object again asks for nothing, but a revision it was given meanwhile is
   * taken over. Under another laboratory's readings every document is another question.
   */
  compute(document: Assessment, revision: number, laboratory?: Laboratory): void {
    const known = this.revisions.get(document);
    this.revisions.set(document, revision);
    const isSame = laboratory === this.laboratory;
    this.laboratory = laboratory;
    if (isSame && (this.asked.get(this.generation) ?? this.settled) === document) {
      if (known !== revision) this.show(this.view);
      return;
    }
    this.generation += 1;
    this.asked.set(this.generation, document);
    this.looking = undefined;
    const { wants } = this;
    this.show({ ...this.view, busy: true, ...(wants ? { outlookBusy: true } : {}) });
    this.port ??= this.begin();
    this.port.postMessage({
      generation: this.generation,
      revision,
      document,
      ...(laboratory ? { laboratory } : {}),
      ...(wants ? { wants } : {}),
    });
  }

  /** Ends the worker. */
  close(): void {
    this.port?.terminate();
    this.port = undefined;
    this.asked.clear();
  }

  private begin(): EnginePort {
    const port = this.start();
    port.addEventListener('message', ({ data }) => this.answered(data));
    port.addEventListener('error', ({ message }) => {
      port.terminate();
      if (this.port === port) this.port = undefined;
      const said = message === undefined || message === '' ? 'it did not say why' : message;
      this.answered({
        generation: this.generation,
        revision: 0,
        stage: 'problem',
        problem: `The engine stopped: ${said}. It starts again with the next change.`,
      });
    });
    return port;
  }

  private answered(answer: EngineAnswer): void {
    if (answer.generation === this.looking?.generation) this.looked(answer, this.looking.document);
    const document = this.asked.get(answer.generation);
    if (!document) return;
    // Answers come in the order of the requests: what was asked before this one will not be answered any more.
    for (const generation of this.asked.keys()) if (generation < answer.generation) this.asked.delete(generation);
    if (answer.stage === 'figures') {
      const { problem: _settled, ...view } = this.view;
      this.show({ ...view, figures: answer.figures, figuresOf: document });
      return;
    }
    this.asked.delete(answer.generation);
    this.settled = document;
    const busy = this.asked.size > 0;
    if (answer.stage === 'problem') this.show({ ...this.view, problem: answer.problem, busy, ...this.outlookIs(busy) });
    if (answer.stage !== 'whole') return;
    const { verdict } = answer;
    if (this.wants && !busy) this.looking = { generation: answer.generation, document };
    const { problem: _mended, ...view } = this.view;
    this.show({ ...view, verdict, of: document, figures: verdict, figuresOf: document, busy });
  }

  /** Takes in an outlook, at first without its ends, or why there is none. */
  private looked(answer: EngineAnswer, document: Assessment): void {
    if (answer.stage === 'outlook')
      this.show({
        ...this.view,
        outlook: answer.outlook,
        outlookOf: document,
        ...this.outlookIs(!answer.last),
      });
    if (answer.stage === 'problem') this.show({ ...this.view, problem: answer.problem, ...this.outlookIs(false) });
  }

  private outlookIs(busy: boolean): Pick<EngineView, 'outlookBusy'> {
    return this.wants ? { outlookBusy: busy } : {};
  }

  private show(view: EngineView): void {
    const { of, figuresOf, outlookOf } = view;
    const revision = of && this.revisions.get(of);
    const figuresRevision = figuresOf && this.revisions.get(figuresOf);
    const outlookRevision = outlookOf && this.revisions.get(outlookOf);
    this.view = {
      ...view,
      ...(revision === undefined ? {} : { revision }),
      ...(figuresRevision === undefined ? {} : { figuresRevision }),
      ...(outlookRevision === undefined ? {} : { outlookRevision }),
    };
    for (const listener of this.listeners) listener();
  }
}
