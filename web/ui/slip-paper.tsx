import type { ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { WordButton } from './buttons.tsx';
import styles from './slip-paper.module.css';

interface SlipPaperProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** The open slip itself; fetched when the first slip opens. */
export const SlipPaper = ({ title, onClose, children }: SlipPaperProps) => (
  <ModalOverlay
    isOpen
    onOpenChange={(open) => (open ? undefined : onClose())}
    isDismissable
    className={styles.over ?? ''}
  >
    <Modal className={styles.slip ?? ''}>
      <Dialog className={styles.body ?? ''}>
        <div className={styles.head}>
          <Heading slot="title">{title}</Heading>
          <WordButton onPress={onClose}>Close</WordButton>
        </div>
        {children}
      </Dialog>
    </Modal>
  </ModalOverlay>
);
