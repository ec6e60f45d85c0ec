import { useEffect, useMemo, useState } from 'react';
import type { Playing } from '../../../contract/index.ts';
import { instrumentsOf, performLines, type Instrument, type LineId, type TickRange } from '../../../music/index.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import type { HeardMix } from '../../playback/named-mixes.ts';
import { Player } from '../../playback/player.ts';
import { usePlayer } from '../../playback/react.ts';
import { useDeviceVolume } from '../../playback/use-device-volume.ts';
import { PlayButton } from '../../ui/play-button.tsx';
import styles from './editor.module.css';

/** What a step of a lesson plays. */
export interface HeardExcerpt {
  readonly music: ArrangedMusic;
  readonly range: TickRange;
  readonly tempoPercent: number;
  readonly playing: Playing;
}

interface HearMixProps {
  readonly excerpt: HeardExcerpt;
  readonly mix: HeardMix;
}

function usePerformance({ music, range, playing }: HeardExcerpt, { settings }: HeardMix) {
  const instruments = JSON.stringify([...instrumentsOf(settings)]);
  return useMemo(
    () =>
      performLines(music.score, music.split, {
        ...playing,
        range,
        instruments: new Map(JSON.parse(instruments) as [LineId, Instrument][]),
      }),
    [music, range, playing, instruments],
  );
}

/** Plays an excerpt round and round with a mix, which may be changed meanwhile. */
export function HearMix({ excerpt, mix }: HearMixProps) {
  const [player] = useState(() => new Player());
  const { status, problem } = usePlayer(player);
  const performance = usePerformance(excerpt, mix);
  useEffect(() => () => void player.close(), [player]);
  useEffect(() => player.load(performance), [player, performance]);
  useDeviceVolume(player);
  useEffect(() => player.setRate(excerpt.tempoPercent), [player, excerpt.tempoPercent]);
  useEffect(() => player.setLoop(excerpt.range), [player, excerpt.range, performance]);
  useEffect(() => {
    player.setMix(mix.settings);
    player.bringForward(mix.forward);
  }, [player, mix]);
  const isPlaying = ['playing', 'starting', 'waiting'].includes(status);
  return (
    <div className={styles.hear}>
      <PlayButton
        isPlaying={isPlaying}
        label={isPlaying ? 'Stop' : 'Hear the mix'}
        onPress={() => (isPlaying ? player.stop() : player.play())}
      />
      <span className={styles.quiet}>
        {isPlaying ? 'Round and round, while you set it.' : 'Hear it while you set it.'}
      </span>
      {problem === null ? null : <span role="alert">{problem}</span>}
    </div>
  );
}
