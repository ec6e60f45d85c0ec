import { Dialog, DialogTrigger, Popover } from 'react-aria-components';
import type { Line } from '../../../music/index.ts';
import { plainSetting } from '../../playback/mixing.ts';
import { BareButton, WordToggle } from '../../ui/buttons.tsx';
import { dyePaint } from '../../ui/dye.ts';
import { Eye, type EyeTone } from '../../ui/eye.tsx';
import { Setting } from '../../ui/setting.tsx';
import styles from './lesson.module.css';
import { audibleLines } from './path-plan.ts';
import type { Listening } from './use-listening.ts';

interface LineEyeProps {
  readonly line: Line;
  readonly listening: Listening;
}

const levelWords = (levelDb: number): string =>
  levelDb === 0 ? 'as it is' : `${levelDb > 0 ? '+' : '−'}${Math.abs(levelDb)} dB`;

function toneOf(line: Line, { lines, snapshot }: Listening): EyeTone {
  if (!audibleLines(lines, snapshot.settings).includes(line.id)) return 'silent';
  return snapshot.forward === line.id ? 'forward' : 'plain';
}

/** A line's eye; pressed, the slip with its sound hangs from it: alone, silent, forward, level, place. */
export function LineEye({ line, listening }: LineEyeProps) {
  const { player, snapshot } = listening;
  const setting = snapshot.settings.get(line.id) ?? plainSetting;
  const tone = toneOf(line, listening);
  return (
    <DialogTrigger>
      <BareButton aria-label={`${line.name}: ${tone === 'silent' ? 'silent' : 'heard'}`}>
        <Eye line={line} tone={tone} />
      </BareButton>
      <Popover placement="right top" offset={2} className={styles.slip ?? ''}>
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
          <Setting
            label="Level"
            value={setting.levelDb}
            least={-24}
            most={6}
            step={1}
            words={levelWords}
            onSet={(levelDb) => player.setLine(line.id, { levelDb })}
          />
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
