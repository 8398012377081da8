import { NewestLine, type NewestPort, type NewestSeen, type Numbered } from './newest-line.ts';

interface Answered<Question, Answer> {
  readonly answer?: Answer;
  /** The question that was answered, to the object. */
  readonly answered?: Question;
}

/** What a screen sees of the answers; the very same object until something changes. */
export type NewestView<Question, Answer> = NewestSeen<Answered<Question, Answer>>;

/** Puts questions of one kind, each with one answer, to the engine: of those that came meanwhile only the newest is put. */
export class NewestClient<Question extends Numbered, Answer extends Numbered> extends NewestLine<
  Question,
  Answer,
  Answered<Question, Answer>
> {
  /** `failed` says what stands for an answer where the engine stopped, and why it did, in words. */
  constructor(start: () => NewestPort<Question, Answer>, failed: (question: Question, words: string) => Answer) {
    super({ start, failed }, {});
  }

  /** The question put last; where the worker was ended before its answer, the one answered before. */
  protected get last(): Question | undefined {
    return this.unanswered ?? this.look().answered;
  }

  protected override isLast(): boolean {
    return true;
  }

  protected override seen(answer: Answer, answered: Question): Answered<Question, Answer> {
    return { answer, answered };
  }
}
