import { useEffect, useRef, useSyncExternalStore } from 'react';
import { Dialog, DialogTrigger, Popover } from 'react-aria-components';
import { assumedTempo, type Score } from '../../../music/index.ts';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { BreaksWord } from '../../playback/breaks-word.tsx';
import { ClickChoice } from '../../playback/click-choice.tsx';
import type { Player } from '../../playback/player.ts';
import { usePlayer } from '../../playback/react.ts';
import { TouchChoice } from '../../playback/touch-choice.tsx';
import type { Singing } from '../../playback/use-singing.ts';
import { WordButton, WordToggle } from '../../ui/buttons.tsx';
import { SingAlongWord } from '../../ui/singing/sing-along-word.tsx';
import { PlayButton } from '../../ui/play-button.tsx';
import { Setting } from '../../ui/setting.tsx';
import type { Desk } from './desk.ts';
import { Mixes } from './mixes.tsx';
import { PlayingSlip } from './playing-slip.tsx';
import { momentWords } from './bar-words.ts';
import styles from './table.module.css';
import type { TableSound } from './table-sound.ts';
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
  const { status, loop, countInBars, problem } = usePlayer(player);
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
      <WordToggle isSelected={countInBars > 0} onChange={(counts) => player.setCountIn(counts ? 1 : 0)}>
        {countInBars === 0 ? 'no count-in' : 'one bar counted in'}
      </WordToggle>
      <ClickChoice player={player} />
      <Repeats sound={sound} />
      <SingAlongWord singing={singing} player={player} />
      <TouchChoice player={player} touches={tableTouches} />
      <BreaksWord player={player} />
      {problem === null ? null : <span role="alert">{problem}</span>}
      <Mixes desk={desk} state={state} />
      <span className={styles.keysWord}>
        <PlayingSlip desk={desk} state={state} /> <WordButton onPress={onTakeOut}>Take out</WordButton>{' '}
        <WordButton onPress={onKeys}>Keys</WordButton>
      </span>
    </div>
  );
}

/** Whether repeats are followed, where the score has any. */
function Repeats({ sound }: { readonly sound: TableSound }) {
  const follows = useSyncExternalStore(sound.subscribe, sound.getRepeats);
  if (follows === null) return null;
  return (
    <WordToggle isSelected={follows} onChange={(isOn) => sound.setRepeats(isOn)}>
      {follows ? 'repeats followed' : 'as printed'}
    </WordToggle>
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
      <Popover placement="top" className={styles.popover ?? ''}>
        <Dialog aria-label="Tempo" className={styles.popoverBody ?? ''}>
          <Setting
            label="Tempo"
            value={ratePercent}
            least={25}
            most={150}
            step={1}
            words={(percent) => `${Math.round((written * percent) / 100)} a minute`}
            onSet={(percent) => player.setRate(percent)}
          />
          <WordButton onPress={() => player.setRate(100)}>As written</WordButton>
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
