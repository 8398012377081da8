import { useLoaderData, useRouter } from '@tanstack/react-router';
import { useMemo, useState } from 'react';
import type { Rubric } from '#verdict/rubric/rubric-schema';
import { keepAuthor, keptAuthor } from '../ledger/author.ts';
import { wallTime } from '../ledger/change-key.ts';
import { Button } from '../look/button.tsx';
import { Notice } from '../look/notice.tsx';
import { SelectField } from '../look/select-field.tsx';
import { StatePage } from '../look/state-page.tsx';
import { TextField } from '../look/text-field.tsx';
import { CriteriaLedger } from './criteria-ledger.tsx';
import type { CurrentRubric } from './current-rubric.ts';
import { EffectLedger } from './effect-ledger.tsx';
import { nameOf } from './name-of.ts';
import { keepEdition } from './rubric-client.ts';
import { RubricEditor } from './rubric-editor.tsx';
import styles from './rubric-screen.module.css';
import { asEdition, useRubricText } from './use-rubric-text.ts';
import { useScores } from './use-scores.ts';

/** The house rubric: its text with its faults, its criteria as a ledger, and what it makes of the shelf. */
export const RubricScreen = () => {
  const { items, current } = useLoaderData({ from: '/rubric' });
  const { text, setText, base, rubric, problems, isFaulty, isEdited, write } = useRubricText(current.text);
  const rubrics = useMemo(() => [base, rubric].filter((each) => each !== undefined), [base, rubric]);
  const view = useScores(items, rubrics);
  const [looked, setLooked] = useState(items[0]?.assessment ?? '');
  const seen = view.get(looked);
  return (
    <div className={styles.sheet}>
      <title>House rubric · Unfasten</title>
      <h1>House rubric</h1>
      <p className={styles.soft}>{editionWords(base, current)}</p>
      <SaveLine current={current} rubric={rubric} text={text} canSave={isEdited && !isFaulty} onKept={setText} />
      <RubricEditor text={text} problems={problems} onText={setText} />
      {isEdited && (
        <div>
          <Button quiet onPress={() => setText(current.text)}>
            Back to the kept text
          </Button>
        </div>
      )}
      <section aria-labelledby="criteria">
        <h2 id="criteria">Criteria</h2>
        {items.length > 0 && (
          <div className={styles.pick}>
            <SelectField
              label="Values and points of"
              value={looked}
              options={items.map((item) => ({ value: item.assessment, label: nameOf(item) }))}
              onChange={setLooked}
            />
          </div>
        )}
        {rubric ? (
          <CriteriaLedger rubric={rubric} score={seen?.scores?.at(-1)} disabled={isFaulty} onWrite={write} />
        ) : (
          <p className={styles.soft}>Mend the text first: nothing of it can be read as a rubric.</p>
        )}
      </section>
      <section aria-labelledby="effect">
        <h2 id="effect">Effect on the shelf</h2>
        {items.length === 0 ? (
          <StatePage title="The shelf is empty">
            <p>With an assessment on it, its score by this rubric stands here.</p>
          </StatePage>
        ) : (
          <EffectLedger items={items} view={view} hasKept={base !== undefined} isEdited={isEdited} />
        )}
      </section>
    </div>
  );
};

const editionWords = (base: Rubric | undefined, { editions }: CurrentRubric): string => {
  if (!base) return 'The kept rubric cannot be used by this program: see the faults.';
  const invented = base.invented ? ' The house is invented.' : '';
  const kept = editions.length === 0 ? 'as it ships; no edition of your own is kept yet' : 'the edition kept last';
  return `${base.title}, edition ${base.edition} of ${base.date}, by ${base.author}: ${kept}.${invented}`;
};

interface SaveLineProps {
  readonly current: CurrentRubric;
  readonly rubric: Rubric | undefined;
  readonly text: string;
  readonly canSave: boolean;
  /** Called with the text that was kept. */
  readonly onKept: (text: string) => void;
}

const SaveLine = ({ current, rubric, text, canSave, onKept }: SaveLineProps) => {
  const router = useRouter();
  const [author, setAuthor] = useState(() => (keptAuthor() === 'not named' ? '' : keptAuthor()));
  const [said, setSaid] = useState<{ readonly words: string; readonly needs: boolean }>();
  const [isBusy, setBusy] = useState(false);
  const next = nextEdition(current, rubric);
  const save = async () => {
    setBusy(true);
    setSaid(undefined);
    try {
      keepAuthor(author);
      const edition = asEdition(text, next);
      await keepEdition({ text: edition, author: keptAuthor(), at: wallTime() });
      onKept(edition);
      setSaid({ words: `Kept as edition ${next}.`, needs: false });
      await router.invalidate();
    } catch (error) {
      setSaid({ words: error instanceof Error ? error.message : String(error), needs: true });
    } finally {
      setBusy(false);
    }
  };
  return (
    <div className={styles.save}>
      <TextField label="At whose hand" value={author} onChange={setAuthor} most={200} />
      <Button main onPress={() => void save()} disabled={!canSave || isBusy}>
        {isBusy ? 'Being kept …' : `Keep as edition ${next}`}
      </Button>
      {said !== undefined && <Notice needs={said.needs}>{said.words}</Notice>}
    </div>
  );
};

/** Above every kept edition of the same rubric, and above the one it began from. */
const nextEdition = ({ editions }: CurrentRubric, rubric: Rubric | undefined): number =>
  Math.max(rubric?.edition ?? 0, ...editions.filter(({ id }) => id === rubric?.id).map(({ edition }) => edition)) + 1;
