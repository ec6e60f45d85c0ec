import { useEffect, useRef, useState, useSyncExternalStore } from 'react';
import { DialogTrigger } from 'react-aria-components';
import { assumedTempo, type Score } from '../../../music/index.ts';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { BreaksWord } from '../../playback/breaks-word.tsx';
import { HowItPlays } from '../../playback/how-it-plays.tsx';
import type { Player } from '../../playback/player.ts';
import { usePlayer } from '../../playback/react.ts';
import type { Singing } from '../../playback/use-singing.ts';
import { WordButton, WordToggle } from '../../ui/buttons.tsx';
import { HangingSlip } from '../../ui/hanging-slip.tsx';
import { SingAlongWord } from '../../ui/singing/sing-along-word.tsx';
import { PlayButton } from '../../ui/play-button.tsx';
import { Setting } from '../../ui/setting.tsx';
import type { Desk } from './desk.ts';
import { Mixes } from './mixes.tsx';
import { PlayingSlip } from './playing-slip.tsx';
import { momentWords } from './bar-words.ts';
import styles from './table.module.css';
import type { TableState } from './table-state.ts';

interface PlayLineProps {
  readonly state: TableState;
  readonly desk: Desk;
  readonly singing: Singing;
  readonly onBars: () => void;
  readonly onKeys: () => void;
  readonly onTakeOut: () => void;
}

const tableTouches = ['note', 'stroke', 'spread'] as const;

/** The bottom line: play, where the music is, and how it plays, in words. */
export function PlayLine({ state, desk, singing, onBars, onKeys, onTakeOut }: PlayLineProps) {
  const { sound } = desk;
  const { player } = sound;
  const { status, loop, problem } = usePlayer(player);
  const isPlaying = ['playing', 'starting', 'waiting'].includes(status);
  const bars = state.excerpt === null ? 'the whole song' : excerptWords(state.score, state.excerpt);
  return (
    <div className={`${styles.play ?? ''} numbers`}>
      <PlayButton isPlaying={isPlaying} label={isPlaying ? 'Stop' : 'Play'} onPress={() => sound.playOrStop()} />
      <Moment score={state.score} player={player} />
      <WordButton onPress={onBars}>{bars}</WordButton>
      <WordToggle
        isSelected={loop !== null}
        isDisabled={state.excerpt === null && loop === null}
        onChange={(isAgain) => sound.setAgain(state, isAgain)}
      >
        {loop === null ? 'played once' : 'round again'}
      </WordToggle>
      <Tempo score={state.score} player={player} />
      <SingAlongWord singing={singing} player={player} />
      <Mixes desk={desk} state={state} />
      <Manner desk={desk} state={state} />
      <BreaksWord player={player} />
      {problem === null ? null : <span role="alert">{problem}</span>}
      <span className={styles.keysWord}>
        <WordButton onPress={onTakeOut}>Take out</WordButton>
        <span className={styles.onlyWide}>
          <WordButton onPress={onKeys}>Keys</WordButton>
        </span>
      </span>
    </div>
  );
}

/** How it plays just here, and behind that how the song is played for everybody. */
function Manner({ desk, state }: Pick<PlayLineProps, 'desk' | 'state'>) {
  const { sound } = desk;
  const isFollowed = useSyncExternalStore(sound.subscribe, sound.getRepeats);
  const [isOpen, setOpen] = useState(false);
  const more = (close: () => void) => (
    <WordButton
      onPress={() => {
        close();
        setOpen(true);
      }}
    >
      How the song is played, for everybody
    </WordButton>
  );
  return (
    <>
      <HowItPlays
        player={sound.player}
        touches={tableTouches}
        repeats={isFollowed === null ? null : { isFollowed, onFollow: (isOn) => sound.setRepeats(isOn) }}
        more={more}
      />
      <PlayingSlip desk={desk} state={state} isOpen={isOpen} onClose={() => setOpen(false)} />
    </>
  );
}

/** The sounding bar and beat; written into the page without rendering. */
function Moment({ score, player }: { readonly score: Score; readonly player: Player }) {
  const host = useRef<HTMLElement>(null);
  useEffect(() => {
    const tell = (ticks: number) => {
      const words = momentWords(score, ticks);
      if (host.current !== null && host.current.textContent !== words) host.current.textContent = words;
    };
    tell(player.position.getTicks());
    return player.position.subscribe(tell);
  }, [score, player]);
  return <b ref={host} className={styles.moment} />;
}

function Tempo({ score, player }: { readonly score: Score; readonly player: Player }) {
  const { ratePercent } = usePlayer(player);
  const written = Math.round(score.tempos[0]?.quartersPerMinute ?? assumedTempo);
  const tempo = Math.round((written * ratePercent) / 100);
  return (
    <DialogTrigger>
      <WordButton>
        <span className="only-heard">Tempo: </span>
        {ratePercent === 100 ? (
          `${written} a minute`
        ) : (
          <>
            {tempo}&nbsp;<span className={styles.quiet}>of {written} a minute</span>
          </>
        )}
      </WordButton>
      <HangingSlip title="Tempo">
        <Setting
          label="How fast"
          value={ratePercent}
          least={25}
          most={150}
          step={1}
          words={(percent) => `${Math.round((written * percent) / 100)} a minute`}
          onSet={(percent) => player.setRate(percent)}
        />
        <WordButton onPress={() => player.setRate(100)}>As written</WordButton>
      </HangingSlip>
    </DialogTrigger>
  );
}
