import { levelWords, placeWords, toneWords } from '../lib/sound-words.ts';
import { Setting } from './setting.tsx';

/** What is set about the sound of one line. **Units** decibels; tone −1 (dark) to 1 (bright); place −1 (left) to 1 (right). */
interface Sound {
  readonly levelDb: number;
  readonly tone: number;
  readonly place: number;
}

interface SoundSettingsProps {
  readonly sound: Sound;
  readonly onSet: (part: Partial<Sound>) => void;
}

/** How loud a line is, how dark or bright, and from which side it comes. */
export const SoundSettings = ({ sound, onSet }: SoundSettingsProps) => (
  <>
    <Setting
      label="Level"
      value={sound.levelDb}
      least={-24}
      most={6}
      step={1}
      words={levelWords}
      onSet={(levelDb) => onSet({ levelDb })}
    />
    <Setting
      label="Tone"
      value={sound.tone}
      least={-1}
      most={1}
      step={0.1}
      shape="sides"
      words={toneWords}
      onSet={(tone) => onSet({ tone })}
    />
    <Setting
      label="Place"
      value={sound.place}
      least={-1}
      most={1}
      step={0.1}
      shape="sides"
      words={placeWords}
      onSet={(place) => onSet({ place })}
    />
  </>
);
