import type { LineSetting } from '../../music/index.ts';
import { WordToggle } from './buttons.tsx';
import styles from './line-mixer.module.css';
import { SoundSettings } from './sound-settings.tsx';

/** What is done with a line among the others. */
interface LineDeeds {
  readonly isLifted: boolean;
  readonly isForward: boolean;
  readonly onLift: (isLifted: boolean) => void;
  readonly onForward: (isForward: boolean) => void;
}

interface LineMixerProps {
  readonly setting: LineSetting;
  /** False for a line of taps. */
  readonly hasPitch: boolean;
  readonly onSet: (part: Partial<LineSetting>) => void;
  /** Null where it is settled elsewhere who is heard. */
  readonly deeds: LineDeeds | null;
}

/** Everything that is set about one line: lifted, alone, silent, forward; its level, tone, place and instrument. */
export const LineMixer = ({ setting, hasPitch, onSet, deeds }: LineMixerProps) => (
  <>
    {deeds === null ? null : <Deeds {...deeds} setting={setting} onSet={onSet} />}
    <div className={styles.settings}>
      <SoundSettings sound={setting} hasPitch={hasPitch} onSet={onSet} />
    </div>
  </>
);

type DeedsProps = LineDeeds & Pick<LineMixerProps, 'setting' | 'onSet'>;

const Deeds = ({ setting, isLifted, isForward, onSet, onLift, onForward }: DeedsProps) => (
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
);
