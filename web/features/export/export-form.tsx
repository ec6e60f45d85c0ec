import { activeLines, type Line } from '../../../music/index.ts';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { Pick } from '../../ui/choice.tsx';
import {
  ensembleChoices,
  isOfLines,
  kinds,
  openSettings,
  possible,
  wordsOf,
  type ExportChoice,
  type KindWords,
} from './export-wish.ts';
import { ExportSettings } from './export-settings.tsx';
import styles from './export.module.css';
import type { ExportedSong } from './make-files.ts';

interface ExportFormProps {
  readonly song: ExportedSong;
  readonly choice: ExportChoice;
  readonly onChoice: (choice: ExportChoice) => void;
}

const whole = [{ value: 'whole', text: 'the whole song' }] as const;

function barOptions({ score, excerpt }: ExportedSong) {
  return excerpt === null ? whole : [...whole, { value: 'excerpt', text: excerptWords(score, excerpt) }];
}

interface Option {
  readonly value: string;
  readonly text: string;
}

function ofOptions(lines: readonly Line[], { kind, isEngraved }: KindWords): readonly Option[] {
  const text = isEngraved ? 'the score' : 'the score, heads in the lines’ colours';
  const score = isOfLines(kind) ? [] : [{ value: 'score', text }];
  const single = lines.map((line): Option => ({ value: line.id, text: `one line: ${line.name}` }));
  return [...score, { value: 'lines', text: 'all lines, written out' }, ...single, ...ensembleChoices];
}

/** What to take out, said in a sentence, with what one gets below. */
export function ExportForm({ song, choice, onChoice }: ExportFormProps) {
  const lines = activeLines(song.split);
  const words = wordsOf(choice.kind);
  const open = openSettings(choice);
  const put = (change: Partial<ExportChoice>) => onChoice(possible({ ...choice, ...change }));
  return (
    <div className={styles.form}>
      <Pick
        label="I want"
        value={choice.kind}
        options={kinds.map(({ kind, text }) => ({ value: kind, text }))}
        onPick={(kind) => put({ kind })}
      />
      {open.of ? (
        <Pick label="of" value={choice.of} options={ofOptions(lines, words)} onPick={(of) => put({ of })} />
      ) : null}
      <Pick
        label={open.of ? 'taking' : 'of'}
        value={choice.isExcerpt ? 'excerpt' : 'whole'}
        options={barOptions(song)}
        onPick={(bars) => put({ isExcerpt: bars === 'excerpt' })}
      />
      <p className={styles.gets}>{words.gets}</p>
      <ExportSettings lines={lines} choice={choice} put={put} />
    </div>
  );
}
