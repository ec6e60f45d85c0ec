import type { Line } from '../../../music/index.ts';
import type { FileSource } from '../../../recording/index.ts';
import styles from './export.module.css';
import { sizeWords } from './export-wish.ts';
import type { SoundInFile } from './sound-worker.ts';

/** A file of sound that was made. */
export interface SoundResult {
  readonly name: string;
  readonly bytes: number;
  readonly sounds: readonly SoundInFile[];
  readonly seconds: number;
}

const others = new Map<FileSource, string>([
  ['mix', 'all together'],
  ['loose', 'notes on no line'],
  ['click', 'the click'],
]);

const wordsOf = ({ source }: SoundInFile, lines: readonly Line[]): string =>
  others.get(source) ?? lines.find(({ id }) => id === source)?.name ?? 'a line';

const decibels = (value: number, unit: string): string =>
  Number.isFinite(value) ? `${value.toFixed(1).replace('-', '−')} ${unit}` : 'silent';

const lengthWords = (seconds: number): string => {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
};

/** What was made, how loud each sound in it is, and a word for the ears. */
export const MadeSound = ({ result, lines }: { readonly result: SoundResult; readonly lines: readonly Line[] }) => (
  <div role="status" className={styles.made}>
    <p>
      <b>{result.name}</b> is made ({lengthWords(result.seconds)}, {sizeWords(result.bytes)}) and goes where your
      browser keeps downloads.
    </p>
    <table className={styles.levels}>
      <thead>
        <tr>
          <th scope="col">Holds</th>
          <th scope="col">Loudness</th>
          <th scope="col">Peak</th>
        </tr>
      </thead>
      <tbody className="numbers">
        {result.sounds.map((sound) => (
          <tr key={sound.name}>
            <th scope="row">{wordsOf(sound, lines)}</th>
            <td>{decibels(sound.levels.loudnessLufs, 'LUFS')}</td>
            <td>{decibels(sound.levels.truePeakDb, 'dBTP')}</td>
          </tr>
        ))}
      </tbody>
    </table>
    <p>Begin softly, above all with headphones: this may be louder than what you heard last.</p>
  </div>
);
