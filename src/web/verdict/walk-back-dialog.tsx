import { findExplained } from '#quantity/explained';
import { basisWords } from '#report/words/terms';
import type { BasisVerdict } from '#verdict/verdict';
import { Button } from '../look/button.tsx';
import { SheetDialog } from '../look/sheet-dialog.tsx';
import type { FigurePlace } from './figure-place.ts';
import { WalkTree } from './walk-tree.tsx';

/** Why one figure is what it is: its explanation laid over the page; the focus goes back to the figure. */
export const WalkBackDialog = ({
  place,
  bases,
  onClose,
}: {
  readonly place: FigurePlace;
  readonly bases: readonly BasisVerdict[];
  readonly onClose: () => void;
}) => {
  const tree = bases.find(({ basis }) => basis === place.basis)?.tree;
  const node = tree && findExplained(tree, place.path.join('/'));
  return (
    <SheetDialog title={`${place.name}, ${basisWords[place.basis]}: why?`} isOpen onClose={onClose}>
      {node ? <WalkTree root={node} /> : <p>This figure does not stand on the newer revision any more.</p>}
      <div>
        <Button onPress={onClose}>Back to the figure</Button>
      </div>
    </SheetDialog>
  );
};
