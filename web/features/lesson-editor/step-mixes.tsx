import type { NamedMix } from '../../../contract/index.ts';
import { activeLines } from '../../../music/index.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { newlyOffered, offeredMixes } from '../../playback/offered-mixes.ts';
import { EdgeButton, WordButton } from '../../ui/buttons.tsx';
import styles from './editor.module.css';
import type { HeardExcerpt } from './hear-mix.tsx';
import { StepMixRow } from './step-mix-row.tsx';

interface StepMixesProps {
  readonly mixes: readonly NamedMix[];
  /** The mixes that were kept for the song at its splitting table. */
  readonly songMixes: readonly NamedMix[];
  readonly music: ArrangedMusic;
  /** Null where its bars are gone. */
  readonly excerpt: HeardExcerpt | null;
  readonly onChange: (mixes: NamedMix[]) => void;
}

const newId = () => crypto.randomUUID();

/** The named mixes that students get along with a step: the song's, or what its lines suggest; renamed and left out here. */
export function StepMixes({ mixes, songMixes, music, excerpt, onChange }: StepMixesProps) {
  const lines = activeLines(music.split);
  const ofSong = newlyOffered(songMixes, mixes);
  const ofLines = newlyOffered(offeredMixes(lines, newId), mixes);
  const add = (more: readonly NamedMix[]) => onChange([...mixes, ...more.map((mix) => ({ ...mix, id: newId() }))]);
  return (
    <div className={styles.path}>
      <h3>Mixes</h3>
      {mixes.length === 0 ? (
        <p className={styles.quiet}>
          Mixes under a name stand beside the play line, for students to choose whenever they like.
        </p>
      ) : null}
      <ul className={styles.mixRows}>
        {mixes.map((mix) => (
          <StepMixRow key={mix.id} mix={mix} mixes={mixes} lines={lines} excerpt={excerpt} onChange={onChange} />
        ))}
      </ul>
      <div className={styles.deeds}>
        <EdgeButton isDisabled={ofSong.length === 0} onPress={() => add(ofSong)}>
          Take the song’s mixes
        </EdgeButton>
        <WordButton isDisabled={ofLines.length === 0} onPress={() => add(ofLines)}>
          Write a set from the lines
        </WordButton>
      </div>
    </div>
  );
}
