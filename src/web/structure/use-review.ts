import { useState } from 'react';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import { describePatch, type FastenerDescription } from './describe-fastener.ts';
import { type Asked, nextUnanswered } from './part-rows.ts';
import { nameOf, type ReviewSource, shownOf } from './review-source.ts';
import { behindPatch, type SightAnswer, sightQuestion } from './sight-answer.ts';
import { draftOf, type SightDraft } from './sight-draft.ts';

/** Which part or fastener is asked of, and the answer being given. */
export interface Review {
  readonly subject: string | undefined;
  readonly draft: SightDraft;
  readonly next: string | undefined;
  readonly choose: (subject: string) => void;
  readonly setDraft: (draft: SightDraft) => void;
  readonly write: (answer: SightAnswer) => void;
  readonly describe: (said: FastenerDescription) => void;
}

/** The pass by sight: parts first, then fasteners; what is written goes to the ledger at once. */
export const useReview = (source: ReviewSource, asked: readonly Asked[], open: OpenAssessment): Review => {
  const [now, setNow] = useState<{ readonly subject: string; readonly draft: SightDraft }>();
  const { parts, fasteners } = source.device;
  const subject = now && (parts.has(now.subject) || fasteners.has(now.subject)) ? now.subject : undefined;
  const draftFor = (id: string): SightDraft => draftOf(sightQuestion(id, source.device, shownOf(source, id)).answer);
  return {
    subject,
    draft: now?.draft ?? draftOf(undefined),
    next: nextUnanswered(asked, subject),
    choose: (id) => setNow({ subject: id, draft: draftFor(id) }),
    setDraft: (draft) => subject !== undefined && setNow({ subject, draft }),
    write: (answer) => {
      if (subject === undefined) return;
      const patch = behindPatch({ ...source, document: open.snapshot().document }, subject, answer);
      if (patch) void open.change(patch, `by sight: what had to be off before ${nameOf(source, subject)}`);
    },
    describe: (said) => {
      if (subject === undefined) return;
      const patch = describePatch(open.snapshot().document, subject, said);
      if (patch) void open.change(patch, `described: ${nameOf(source, subject)}`);
    },
  };
};
