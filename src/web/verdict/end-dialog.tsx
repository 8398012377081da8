import { endKindWords, objectiveWords, witnessWords } from '#report/words/outlook-words';
import { basisWords } from '#report/words/terms';
import type { Outlook } from '#verdict/outlook/outlook';
import { Button } from '../look/button.tsx';
import { SheetDialog } from '../look/sheet-dialog.tsx';
import type { EndPlace } from './ends-ledger.tsx';
import styles from './questions-panel.module.css';

interface EndDialogProps {
  readonly place: EndPlace;
  readonly outlook: Outlook;
  readonly onClose: () => void;
}

/** By which answers one end comes about, laid over the page; the focus goes back to the figure. */
export const EndDialog = ({ place, outlook, onClose }: EndDialogProps) => {
  const basis = outlook.bases.find((candidate) => candidate.basis === place.basis);
  const end = basis?.figures.find(({ figure }) => figure === place.figure)?.[place.which];
  const which = place.which === 'low' ? 'lowest' : 'highest';
  return (
    <SheetDialog
      title={`${objectiveWords(place.figure)}, ${which}, ${basisWords[place.basis]}: by which answers?`}
      isOpen
      onClose={onClose}
    >
      {end ? (
        <>
          <p>
            {end.bound}
            {end.letter === undefined ? '' : `, class ${end.letter}`}: {endKindWords(end)}.
          </p>
          <Answers answers={witnessWords(end)} hasWitness={end.witness !== undefined} value={end.witness?.value} />
        </>
      ) : (
        <p>This end does not stand on the newer revision any more.</p>
      )}
      <div>
        <Button onPress={onClose}>Back to the figure</Button>
      </div>
    </SheetDialog>
  );
};

interface AnswersProps {
  readonly answers: readonly string[];
  readonly hasWitness: boolean;
  readonly value: string | undefined;
}

const Answers = ({ answers, hasWitness, value }: AnswersProps) => {
  if (!hasWitness) return <p>No answers were found that lead to a figure at this end.</p>;
  if (answers.length === 0) return <p>{value} is the figure as it stands, with nothing more answered.</p>;
  return (
    <>
      <p>Put into the record, these answers give {value}:</p>
      <ul className={styles.list}>
        {answers.map((words) => (
          <li key={words} className={styles.question} dir="auto">
            {words}
          </li>
        ))}
      </ul>
    </>
  );
};
