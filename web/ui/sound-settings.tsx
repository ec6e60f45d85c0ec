import type { Instrument } from '../../music/index.ts';
import { instrumentWords, levelWords, placeWords, toneWords } from '../lib/sound-words.ts';
import { Pick } from './choice.tsx';
import { Setting } from './setting.tsx';

/** What is set about the sound of one line. **Units** decibels; tone −1 (dark) to 1 (bright); place −1 (left) to 1 (right). */
export interface LineSound {
  readonly levelDb: number;
  readonly tone: number;
  readonly place: number;
  /** Null for its usual instrument. */
  readonly instrument: Instrument | null;
}

interface SoundSettingsProps {
  readonly sound: LineSound;
  /** False for a line of taps, which has no instrument to choose. */
  readonly hasPitch: boolean;
  readonly onSet: (part: Partial<LineSound>) => void;
}

const usual = 'usual';
const instruments = [
  { value: usual, text: 'as usual' },
  ...(['steel', 'nylon', 'bass', 'hum'] as const).map((value) => ({ value, text: instrumentWords[value] })),
] as const;

/** How loud a line is, how dark or bright, from which side it comes, and what it is played with. */
export const SoundSettings = ({ sound, hasPitch, onSet }: SoundSettingsProps) => (
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
      onSet={(tone) => onSet({ tone: tenths(tone) })}
    />
    <Setting
      label="Place"
      value={sound.place}
      least={-1}
      most={1}
      step={0.1}
      shape="sides"
      words={placeWords}
      onSet={(place) => onSet({ place: tenths(place) })}
    />
    {hasPitch ? (
      <Pick
        label="Played with"
        value={sound.instrument ?? usual}
        options={instruments}
        onPick={(instrument) => onSet({ instrument: instrument === usual ? null : instrument })}
      />
    ) : null}
  </>
);

/** Steps of a tenth without the dust that sums of tenths leave. */
const tenths = (value: number): number => Math.round(value * 10) / 10;
