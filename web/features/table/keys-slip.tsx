import { Slip } from '../../ui/dialog.tsx';
import { keyWords } from './table-keys.ts';
import styles from './table.module.css';

interface KeysSlipProps {
  readonly isOpen: boolean;
  readonly onClose: () => void;
}

/** Every key of the table in words. */
export const KeysSlip = ({ isOpen, onClose }: KeysSlipProps) => (
  <Slip title="Keys" isOpen={isOpen} onClose={onClose}>
    <dl className={styles.keys}>
      {keyWords.map(([keys, words]) => (
        <div key={keys}>
          <dt>{keys}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </dl>
  </Slip>
);
