import { DialogTrigger, Popover } from 'react-aria-components';
import { type Line, audibleLines } from '../../../music/index.ts';
import { BareButton } from '../../ui/buttons.tsx';
import { Eye, type EyeTone } from '../../ui/eye.tsx';
import styles from './lesson.module.css';
import { LineSound } from './line-sound.tsx';
import type { Listening } from './use-listening.ts';

interface LineEyeProps {
  readonly line: Line;
  readonly listening: Listening;
}

function toneOf(line: Line, { lines, snapshot }: Listening): EyeTone {
  if (!audibleLines(lines, snapshot.settings).includes(line.id)) return 'silent';
  return snapshot.forward === line.id ? 'forward' : 'plain';
}

/** A line's eye; pressed, the slip with its sound hangs from it. */
export function LineEye({ line, listening }: LineEyeProps) {
  const tone = toneOf(line, listening);
  return (
    <DialogTrigger>
      <BareButton aria-label={`${line.name}: ${tone === 'silent' ? 'silent' : 'heard'}`}>
        <Eye line={line} tone={tone} />
      </BareButton>
      <Popover placement="right top" offset={2} className={styles.slip ?? ''}>
        <LineSound line={line} listening={listening} />
      </Popover>
    </DialogTrigger>
  );
}
