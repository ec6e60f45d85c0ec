import { DialogTrigger } from 'react-aria-components';
import { useOwnSinging } from '../../lib/own-singing.ts';
import { fitWords, moveWords } from '../../lib/singing-words.ts';
import type { Player } from '../../playback/player.ts';
import { usePlayer } from '../../playback/react.ts';
import type { Singing } from '../../playback/use-singing.ts';
import { WordButton, WordToggle } from '../buttons.tsx';
import { HangingSlip } from '../hanging-slip.tsx';
import { SungLines } from './sung-lines.tsx';
import styles from './singing.module.css';
import { VoiceForm } from './voice-form.tsx';

interface SingAlongProps {
  readonly singing: Singing;
  readonly player: Player;
}

/** A word that tells which line is sung along with; behind it everything for singing. */
export function SingAlongWord(props: SingAlongProps) {
  const { line } = props.singing;
  return (
    <DialogTrigger>
      <WordButton>
        {line === null ? (
          'Sing along'
        ) : (
          <>
            Sing along: <b>{line.name}</b>
          </>
        )}
      </WordButton>
      <HangingSlip title="Sing along" placement="top start" width="roomy">
        <Inside {...props} />
      </HangingSlip>
    </DialogTrigger>
  );
}

const Inside = ({ singing, player }: SingAlongProps) => (
  <div className={styles.inside}>
    <SungLines singing={singing} />
    <Tones singing={singing} player={player} />
    <p className={styles.care}>
      Sing softly and where it is comfortable. Stop when it hurts or tires you; if that goes on, see a doctor or a voice
      therapist.
    </p>
    <Voice singing={singing} />
  </div>
);

/** What helps to begin: the first note, a count-in, a drone. */
function Tones({ singing, player }: SingAlongProps) {
  const { drone, setDrone, soundFirst } = singing;
  const { countInBars } = usePlayer(player);
  return (
    <div className={styles.row}>
      <WordButton isDisabled={soundFirst === null} onPress={() => soundFirst?.()}>
        Sound the first note
      </WordButton>
      <WordToggle isSelected={countInBars > 0} onChange={(counts) => player.setCountIn(counts ? 1 : 0)}>
        Count-in
      </WordToggle>
      <WordToggle isSelected={drone === 'tonic'} onChange={(isOn) => setDrone(isOn ? 'tonic' : null)}>
        Drone on the tonic
      </WordToggle>
      <WordToggle
        isSelected={drone === 'first'}
        isDisabled={soundFirst === null && drone !== 'first'}
        onChange={(isOn) => setDrone(isOn ? 'first' : null)}
      >
        Drone on the first note
      </WordToggle>
    </div>
  );
}

/** The voice that was told, and what is moved for it. */
function Voice({ singing }: Pick<SingAlongProps, 'singing'>) {
  const [{ voice }, keep] = useOwnSinging();
  const { line, move, wantsMove, setWantsMove } = singing;
  return (
    <>
      <VoiceForm voice={voice} onVoice={(next) => keep({ voice: next })} />
      {voice === null ? null : (
        <WordToggle isSelected={wantsMove} onChange={setWantsMove}>
          Moved to my voice
        </WordToggle>
      )}
      {voice === null || line === null || !wantsMove ? null : (
        <p className={styles.hint} role="status">
          {[moveWords(move), fitWords(move)].filter((words) => words !== null).join(' ')}
        </p>
      )}
    </>
  );
}
