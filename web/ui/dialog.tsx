import type { ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { WordButton } from './buttons.tsx';
import styles from './dialog.module.css';

interface SlipProps {
  readonly title: string;
  readonly isOpen: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A slip of paper over the page: in the middle of a wide screen, from below on a phone. */
export function Slip({ title, isOpen, onClose, children }: SlipProps) {
  return (
    <ModalOverlay
      isOpen={isOpen}
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
}
