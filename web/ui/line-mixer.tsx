import type { LineSetting } from '../../music/index.ts';
import { WordToggle } from './buttons.tsx';
import styles from './line-mixer.module.css';
import { SoundSettings } from './sound-settings.tsx';

interface LineMixerProps {
  readonly setting: LineSetting;
  readonly isLifted: boolean;
  readonly isForward: boolean;
  /** False for a line of taps. */
  readonly hasPitch: boolean;
  readonly onSet: (part: Partial<LineSetting>) => void;
  readonly onLift: () => void;
  readonly onForward: (isForward: boolean) => void;
}

/** Everything that is set about one line: lifted, alone, silent, forward; its level, tone, place and instrument. */
export const LineMixer = ({ setting, isLifted, isForward, hasPitch, onSet, onLift, onForward }: LineMixerProps) => (
  <>
    <div className={styles.words}>
      <WordToggle isSelected={isLifted} onChange={onLift}>
        Lift
      </WordToggle>
      <WordToggle
        isSelected={setting.isSolo}
        onChange={(isSolo) => onSet({ isSolo, ...(isSolo ? { isMuted: false } : {}) })}
      >
        Solo
      </WordToggle>
      <WordToggle isSelected={setting.isMuted} onChange={(isMuted) => onSet({ isMuted })}>
        Mute
      </WordToggle>
      <WordToggle isSelected={isForward} onChange={onForward}>
        Bring forward
      </WordToggle>
    </div>
    <div className={styles.settings}>
      <SoundSettings sound={setting} hasPitch={hasPitch} onSet={onSet} />
    </div>
  </>
);
