import { Dialog } from 'react-aria-components';
import { plainSetting, type Line } from '../../../music/index.ts';
import { dyePaint } from '../../ui/dye.ts';
import { LineMixer } from '../../ui/line-mixer.tsx';
import styles from './lesson.module.css';
import type { Listening } from './use-listening.ts';

interface LineSoundProps {
  readonly line: Line;
  readonly listening: Listening;
}

/** How a line sounds: lifted, alone, silent, forward, louder or softer, darker or brighter, from which side, on what. */
export function LineSound({ line, listening }: LineSoundProps) {
  const { player, snapshot, lifted, lift } = listening;
  return (
    <Dialog
      className={styles.slipBody ?? ''}
      aria-label={`The sound of ${line.name}`}
      style={{ borderTopColor: dyePaint[line.dye].colour }}
    >
      <h3>{line.name}</h3>
      <LineMixer
        setting={snapshot.settings.get(line.id) ?? plainSetting}
        hasPitch={line.role !== 'percussion'}
        onSet={(part) => player.setLine(line.id, part)}
        deeds={{
          isLifted: lifted.has(line.id),
          isForward: snapshot.forward === line.id,
          onLift: () => lift(line.id),
          onForward: (isForward) => player.bringForward(isForward ? line.id : null),
        }}
      />
    </Dialog>
  );
}
