import { useState } from 'react';
import { applyPatch } from '#record/patch/apply-patch';
import type { Patch } from '#record/patch/operation';
import type { Assessment } from '#record/schema/assessment';
import { answeredPatch } from '#verdict/answering/answered-patch';
import type { OutlookQuestion } from '#verdict/outlook/outlook-question';
import { wallTime } from '../ledger/change-key.ts';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import { fittedPatch, takenBackPatch } from './answer-changes.ts';

/** An answer as it was chosen on the screen. */
export interface GivenAnswer {
  readonly question: OutlookQuestion;
  readonly effect: OutlookQuestion['effects'][number];
  readonly by: string;
  readonly evidence: readonly string[];
  readonly note: string;
}

/** An answer that was written here, and can be taken back while nobody changed it. */
interface WrittenAnswer {
  readonly asks: string;
  readonly says: string;
  readonly before: Assessment;
  readonly patch: Patch;
}

/** What the screen can do with answers. */
export interface Answers {
  readonly written: readonly WrittenAnswer[];
  /** Does the answer still fit the record? It does not where its place was written since the questions were worked out. */
  readonly fits: (effect: GivenAnswer['effect']) => boolean;
  readonly write: (given: GivenAnswer) => void;
  /** Takes the last one back that was written here. */
  readonly takeBack: () => void;
}

/** Answers of this screen to questions that were worked out from `askedOf`. */
export const useAnswers = (open: OpenAssessment, document: Assessment, askedOf: Assessment | undefined): Answers => {
  const [written, setWritten] = useState<readonly WrittenAnswer[]>([]);
  const fitted = (patch: Patch, to: Assessment) => askedOf && fittedPatch(patch, askedOf, to);
  return {
    written,
    fits: ({ patch }) => fitted(patch, document) !== undefined,
    write: ({ question, effect, by, evidence, note }) => {
      const before = open.snapshot().document;
      const plain = fitted(effect.patch, before);
      if (!plain) return;
      const at = wallTime();
      const given = { by, on: at.slice(0, 10), at, evidence, ...(note === '' ? {} : { note }) };
      const patch = answeredPatch(before, { questions: question.ids, says: effect.says, patch: plain }, given);
      if (!applyPatch(before, patch).fits) return;
      void open.change(patch, `answer to ${question.ids.join(' & ')}: ${effect.answer}`);
      setWritten([...written, { asks: question.asks.join(' and '), says: effect.says, before, patch }]);
    },
    takeBack: () => {
      const last = written.at(-1);
      const patch = last && takenBackPatch(last.before, open.snapshot().document, last.patch);
      if (patch) void open.change(patch, 'answer taken back');
      setWritten(written.slice(0, -1));
    },
  };
};
