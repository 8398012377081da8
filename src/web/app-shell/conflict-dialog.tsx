import { useState } from 'react';
import type { OpenAssessment } from '../ledger/open-assessment.ts';
import type { Clash, Conflict } from '../ledger/sync-state.ts';
import { Button } from '../look/button.tsx';
import { LedgerTable } from '../look/ledger-table.tsx';
import { SheetDialog } from '../look/sheet-dialog.tsx';
import styles from './conflict-dialog.module.css';

/** Both versions of what clashes, one change at a time, and the choice. */
export const ConflictDialog = ({
  open,
  conflicts,
  onClose,
}: {
  readonly open: OpenAssessment;
  readonly conflicts: readonly Conflict[];
  readonly onClose: () => void;
}) => {
  const [hasNoPlace, setHasNoPlace] = useState(false);
  const [conflict] = conflicts;
  if (!conflict) return null;
  const decide = async (choice: 'keep-mine' | 'keep-theirs') => {
    const isDone = await open.resolve(conflict, choice);
    setHasNoPlace(!isDone);
    if (isDone && conflicts.length === 1) onClose();
  };
  return (
    <SheetDialog title="Two versions of one place" isOpen onClose={onClose}>
      <p>{conflict.why}</p>
      <LedgerTable caption="The versions" columns={COLUMNS} rows={conflict.clashes} rowKey={({ path }) => path} />
      {hasNoPlace && <p role="alert">Mine has no place left: what it belonged to was taken away.</p>}
      <div className={styles.choice}>
        {conflict.kind === 'clash' && (
          <Button main onPress={() => void decide('keep-mine')}>
            Mine shall hold
          </Button>
        )}
        <Button onPress={() => void decide('keep-theirs')}>
          {conflict.kind === 'clash' ? 'Let the other stand' : 'Put mine away'}
        </Button>
        <Button quiet onPress={onClose}>
          Decide later
        </Button>
      </div>
    </SheetDialog>
  );
};

const COLUMNS = [
  { name: 'place', cell: ({ path }: Clash) => path.slice(1).replaceAll('/', ' / ') },
  { name: 'stands there now', cell: ({ head }: Clash) => shown(head) },
  { name: 'mine', cell: ({ wanted }: Clash) => shown(wanted) },
];

const shown = (value: unknown) => (
  <span dir="auto">{value === undefined ? 'nothing' : typeof value === 'string' ? value : JSON.stringify(value)}</span>
);
