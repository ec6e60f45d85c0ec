import { voiceRanges, type PitchRange } from '../../../music/index.ts';
import { deepestMidi, highestMidi, narrowestSemitones } from '../../lib/own-singing.ts';
import { isUsual, pitchWords, voiceKinds } from '../../lib/singing-words.ts';
import { WordButton, WordToggle } from '../buttons.tsx';
import styles from './singing.module.css';

interface VoiceFormProps {
  readonly voice: PitchRange | null;
  readonly onVoice: (voice: PitchRange | null) => void;
}

/** Where somebody sings comfortably: one of four kinds, then note by note. */
export function VoiceForm({ voice, onVoice }: VoiceFormProps) {
  return (
    <div role="group" aria-label="Where your voice is comfortable" className={styles.group}>
      <p className={styles.label}>Where is your voice comfortable?</p>
      <div className={styles.row}>
        {voiceKinds.map(({ kind, text }) => (
          <WordToggle
            key={kind}
            isSelected={isUsual(kind, voice)}
            onChange={(isChosen) => onVoice(isChosen ? voiceRanges[kind] : null)}
          >
            {text}
          </WordToggle>
        ))}
      </div>
      {voice === null ? null : <Ends voice={voice} onVoice={onVoice} />}
    </div>
  );
}

interface EndsProps {
  readonly voice: PitchRange;
  readonly onVoice: (voice: PitchRange) => void;
}

function Ends({ voice, onVoice }: EndsProps) {
  const { lowMidi, highMidi } = voice;
  return (
    <div className={styles.ends}>
      <End
        name="lowest"
        midi={lowMidi}
        least={deepestMidi}
        most={highMidi - narrowestSemitones}
        onMidi={(midi) => onVoice({ ...voice, lowMidi: midi })}
      />
      <End
        name="highest"
        midi={highMidi}
        least={lowMidi + narrowestSemitones}
        most={highestMidi}
        onMidi={(midi) => onVoice({ ...voice, highMidi: midi })}
      />
    </div>
  );
}

interface EndProps {
  readonly name: 'lowest' | 'highest';
  readonly midi: number;
  readonly least: number;
  readonly most: number;
  readonly onMidi: (midi: number) => void;
}

/** One end of a voice, moved by semitones. */
const End = ({ name, midi, least, most, onMidi }: EndProps) => (
  <>
    <span className={styles.label}>{name}</span>
    <b className={styles.pitch} role="status">
      {pitchWords(midi)}
    </b>
    <WordButton isDisabled={midi <= least} onPress={() => onMidi(midi - 1)} aria-label={`${name} note lower`}>
      lower
    </WordButton>
    <WordButton isDisabled={midi >= most} onPress={() => onMidi(midi + 1)} aria-label={`${name} note higher`}>
      higher
    </WordButton>
  </>
);
