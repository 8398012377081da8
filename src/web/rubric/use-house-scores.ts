import { useEffect, useState } from 'react';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import type { ShelfItem } from '../ledger/ledger-client.ts';
import { readCurrentRubric } from './current-rubric.ts';
import type { ScoresView } from './scores-client.ts';
import { useScores } from './use-scores.ts';
import { useWhenIdle } from './use-when-idle.ts';

const NONE: readonly Rubric[] = [];
const NO_ITEMS: readonly ShelfItem[] = [];

/** What the shelf shows of house scores: by which rubric, and what is known of each assessment. */
export interface HouseScores {
  /** Missing until the rubric is read. */
  readonly rubric?: Rubric;
  readonly problem?: string;
  readonly view: ScoresView;
}

/** The scores of the shelf by the rubric in use; reader and engine load when the shelf itself has come to rest. */
export const useHouseScores = (items: readonly ShelfItem[]): HouseScores => {
  const [rubrics, setRubrics] = useState<readonly Rubric[]>(NONE);
  const [problem, setProblem] = useState<string>();
  const isIdle = useWhenIdle();
  useEffect(() => {
    if (!isIdle) return;
    let isOver = false;
    Promise.all([readCurrentRubric(), import('./rubric-of-text.ts')]).then(
      ([{ text }, { rubricOfText }]) => {
        const { rubric } = rubricOfText(text);
        if (isOver) return;
        if (rubric) setRubrics([rubric]);
        else setProblem('The kept rubric cannot be used by this program.');
      },
      (error: unknown) => isOver || setProblem(error instanceof Error ? error.message : String(error)),
    );
    return () => {
      isOver = true;
    };
  }, [isIdle]);
  const view = useScores(isIdle ? items : NO_ITEMS, rubrics);
  const [rubric] = rubrics;
  return { view, ...(rubric ? { rubric } : {}), ...(problem === undefined ? {} : { problem }) };
};
