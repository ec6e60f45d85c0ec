import { plainSetting, type Line } from '../../../music/index.ts';
import { WordToggle } from '../../ui/buttons.tsx';
import { dyePaint } from '../../ui/dye.ts';
import { SoundSettings } from '../../ui/sound-settings.tsx';
import { Dialog } from 'react-aria-components';
import styles from './lesson.module.css';
import type { Listening } from './use-listening.ts';

interface LineSoundProps {
  readonly line: Line;
  readonly listening: Listening;
}

/** How a line sounds: alone, silent, forward, louder or softer, darker or brighter, from which side. */
export function LineSound({ line, listening }: LineSoundProps) {
  const { player, snapshot } = listening;
  const setting = snapshot.settings.get(line.id) ?? plainSetting;
  return (
    <Dialog
      className={styles.slipBody ?? ''}
      aria-label={`The sound of ${line.name}`}
      style={{ borderTopColor: dyePaint[line.dye].colour }}
    >
      <h3>{line.name}</h3>
      <div className={styles.words}>
        <WordToggle
          isSelected={setting.isSolo}
          onChange={(isSolo) => player.setLine(line.id, { isSolo, isMuted: false })}
        >
          Solo
        </WordToggle>
        <WordToggle isSelected={setting.isMuted} onChange={(isMuted) => player.setLine(line.id, { isMuted })}>
          Mute
        </WordToggle>
        <WordToggle
          isSelected={snapshot.forward === line.id}
          onChange={(isForward) => player.bringForward(isForward ? line.id : null)}
        >
          Bring forward
        </WordToggle>
      </div>
      <SoundSettings sound={setting} onSet={(part) => player.setLine(line.id, part)} />
    </Dialog>
  );
}
