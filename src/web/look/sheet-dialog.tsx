import type { ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import styles from './sheet-dialog.module.css';

/** What a dialog says. */
export interface SheetDialogProps {
  readonly title: string;
  readonly isOpen: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A sheet laid over the page: keeps the focus, goes away with Escape, gives the focus back. Load it when it is needed. */
export const SheetDialog = ({ title, isOpen, onClose, children }: SheetDialogProps) => (
  <ModalOverlay className={styles.veil ?? ''} isOpen={isOpen} onOpenChange={(open) => !open && onClose()} isDismissable>
    <Modal className={styles.sheet ?? ''}>
      <Dialog className={styles.dialog ?? ''}>
        <Heading slot="title">{title}</Heading>
        {children}
      </Dialog>
    </Modal>
  </ModalOverlay>
);
