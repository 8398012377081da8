import { useId } from 'react';
import type { Problem } from '#record/problem';
import { standingWords } from '#report/words/outlook-words';
import { Button } from '../look/button.tsx';
import styles from './questions-panel.module.css';
import type { Odds } from './use-odds.ts';

/** Whose odds break ties between the questions, what they are worth, and the way to take them from a file or to one. */
export const OddsNote = ({ odds }: { readonly odds: Odds }) => (
  <div className={styles.odds}>
    <p className={styles.soft} role="status">
      {statusWords(odds)}
    </p>
    {odds.trouble !== undefined && (
      <p role="alert" className={styles.fault}>
        No ranking by these odds. {odds.trouble}
      </p>
    )}
    <Problems head="In the odds kept here:" problems={odds.problems} />
    {odds.refused && (
      <div role="alert">
        <p className={styles.fault}>
          <bdi>{odds.refused.fileName}</bdi> was not taken; the odds are as before. {odds.refused.words}
        </p>
        <Problems head="In the file:" problems={odds.refused.problems} />
      </div>
    )}
    <details>
      <summary>Odds from a file, or to one</summary>
      <FileForm odds={odds} />
    </details>
  </div>
);

const statusWords = ({ kept, given, list, busy, problems }: Odds): string => {
  if (busy) return 'Odds: being worked out …';
  if (!kept)
    return 'No odds of answers are given. Where somebody can say how likely answers are, they break ties; they settle nothing.';
  if (!given)
    return problems.length > 0
      ? 'Odds are kept here that cannot be used: mend them in the file and load it again.'
      : '';
  const count = Object.keys(given.weights).length;
  if (count === 0) return `No question that ${given.by} gave odds for is open.`;
  const whose = `Among equals by the odds of ${given.by}${given.reason === undefined ? '' : ` (${given.reason})`}, taken to be independent; they are no findings.`;
  const { withOdds } = list ?? {};
  if (!withOdds) return whose;
  return `${whose} ${standingWords(withOdds, count)}`;
};

/** Each with its place in the text, what stands there, and what to do. */
const Problems = ({ head, problems }: { readonly head: string; readonly problems: readonly Problem[] }) =>
  problems.length === 0 ? null : (
    <div className={styles.oddsBody}>
      <p className={styles.soft}>{head}</p>
      <ul>
        {problems.map(({ file, line, column, path, message, remedy }) => (
          <li key={`${line}:${column} ${path} ${message}`}>
            <bdi>
              {file}:{line}:{column} {path}
            </bdi>
            : {message}. {remedy}
          </li>
        ))}
      </ul>
    </div>
  );

const FileForm = ({ odds }: { readonly odds: Odds }) => {
  const name = useId();
  const { kept } = odds;
  return (
    <div className={styles.oddsBody}>
      <p className={styles.soft}>
        They are kept in this browser and stand neither in the record nor in a report: they are nobody's finding. A file
        is what <code>unfasten questions --odds</code> takes.
      </p>
      <div className={styles.file}>
        <label htmlFor={name}>Load odds (YAML or JSON)</label>
        <input
          id={name}
          type="file"
          accept=".yaml,.yml,.json"
          onChange={({ target }) => {
            const [file] = target.files ?? [];
            if (file) void odds.load(file);
            // The same file, mended, is loaded again.
            target.value = '';
          }}
        />
      </div>
      {kept && (
        <p className={styles.row}>
          <Button onPress={() => save(kept)}>Save as a file</Button>
          <Button onPress={odds.clear}>Take all odds away</Button>
        </p>
      )}
    </div>
  );
};

const save = ({ fileName, text }: NonNullable<Odds['kept']>): void => {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/yaml' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  link.click();
  URL.revokeObjectURL(address);
};
