import { lazy, Suspense, type ReactNode } from 'react';

const SlipPaper = lazy(async () => ({ default: (await import('./slip-paper.tsx')).SlipPaper }));

interface SlipProps {
  readonly title: string;
  readonly isOpen: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
}

/** A slip of paper over the page: in the middle of a wide screen, from below on a phone. */
export const Slip = ({ title, isOpen, onClose, children }: SlipProps) =>
  isOpen ? (
    <Suspense fallback={null}>
      <SlipPaper title={title} onClose={onClose}>
        {children}
      </SlipPaper>
    </Suspense>
  ) : null;
