import type { ReactNode, RefObject } from 'react';
import { Dialog, Popover, type PopoverProps } from 'react-aria-components';
import type { Dye } from '../../music/index.ts';
import { WordButton } from './buttons.tsx';
import { dyePaint } from './dye.ts';
import styles from './hanging-slip.module.css';

interface HangingSlipProps {
  readonly title: string;
  /** What it is called by those who listen; its title without it. */
  readonly label?: string;
  readonly placement?: PopoverProps['placement'];
  /** `slim` for a few words or settings, `roomy` for rows and sentences. */
  readonly width?: 'slim' | 'roomy';
  /** The line that it is about, by its dye. */
  readonly dye?: Dye;
  /** What it hangs from and what closes it, where it does not stand within a `DialogTrigger`. */
  readonly from?: { readonly anchor: RefObject<HTMLElement | null>; readonly onClose: () => void };
  readonly children: ReactNode | ((slip: { readonly close: () => void }) => ReactNode);
}

/** A small slip of paper that hangs from the word or the eye that opened it; on a phone it comes from below. */
export function HangingSlip(props: HangingSlipProps) {
  const { title, label = title, placement = 'top', width = 'slim', dye, from, children } = props;
  return (
    <Popover {...hungFrom(from)} placement={placement} className={styles.slip ?? ''} data-width={width}>
      <Dialog
        className={styles.body ?? ''}
        aria-label={label}
        {...(dye === undefined ? {} : { style: { borderTop: `4px solid ${dyePaint[dye].colour}` } })}
      >
        {(dialog) => (
          <Inside title={title} close={from?.onClose ?? dialog.close}>
            {children}
          </Inside>
        )}
      </Dialog>
    </Popover>
  );
}

interface InsideProps extends Pick<HangingSlipProps, 'title' | 'children'> {
  readonly close: () => void;
}

const Inside = ({ title, close, children }: InsideProps) => (
  <>
    <div className={styles.head}>
      <h3>{title}</h3>
      <WordButton onPress={close}>Close</WordButton>
    </div>
    {typeof children === 'function' ? children({ close }) : children}
  </>
);

function hungFrom(from: HangingSlipProps['from']): Partial<PopoverProps> {
  if (from === undefined) return {};
  return { triggerRef: from.anchor, isOpen: true, onOpenChange: (isOpen) => (isOpen ? undefined : from.onClose()) };
}
