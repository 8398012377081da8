import { useDeferredValue, useEffect, useMemo, useRef, useState } from 'react';
import { today } from './day.ts';
import { editScalar } from './edit-scalar.ts';
import { keepDraft, keptDraft } from './kept-draft.ts';
import { rubricOfText } from './rubric-of-text.ts';

/** The text in the editor, what it says, and how it is changed. */
export const useRubricText = (kept: string) => {
  const [text, setText] = useState(() => keptDraft() ?? kept);
  const [from, setFrom] = useState(kept);
  // A newer kept edition takes the place of a text that nobody has changed; what is being edited stays.
  if (kept !== from) {
    setFrom(kept);
    if (text === from) setText(kept);
  }
  useEffect(() => keepDraft(text === kept ? undefined : text), [text, kept]);
  const read = useDeferredValue(text);
  const reading = useMemo(() => rubricOfText(read), [read]);
  const base = useMemo(() => rubricOfText(kept).rubric, [kept]);
  // While the text has faults, the last one without stands for it.
  const last = useRef(base);
  if (reading.rubric) last.current = reading.rubric;
  return {
    text,
    setText,
    base,
    rubric: last.current,
    problems: reading.problems,
    isFaulty: reading.rubric === undefined,
    isEdited: text !== kept,
    write: (path: readonly string[], value: string) => setText((before) => editScalar(before, path, value) ?? before),
  };
};

/** The text as the next edition: the number above all that are kept, and the day it is written. */
export const asEdition = (text: string, edition: number): string =>
  [['edition', String(edition)] as const, ['date', today()] as const].reduce(
    (edited, [field, value]) => editScalar(edited, [field], value) ?? edited,
    text,
  );
