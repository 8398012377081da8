import styles from './rubric-screen.module.css';
import { seenWords } from './score-words.ts';
import type { HouseScores } from './use-house-scores.ts';

/** The house score of one assessment on the shelf, with its width; marked until it is worked out. */
export const HouseScoreCell = ({
  house: { view, problem },
  assessment,
}: {
  readonly house: HouseScores;
  readonly assessment: string;
}) => {
  const seen = view.get(assessment);
  if (problem !== undefined) return <span className={styles.soft}>not scored</span>;
  return <span className={seen?.scores && !seen.busy ? undefined : styles.soft}>{seenWords(seen, 0)}</span>;
};
