import { DialogTrigger } from 'react-aria-components';
import { activeLines, assumedTempo } from '../../../music/index.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import { BreaksWord } from '../../playback/breaks-word.tsx';
import { HowItPlays } from '../../playback/how-it-plays.tsx';
import { WordButton, WordToggle } from '../../ui/buttons.tsx';
import { HangingSlip } from '../../ui/hanging-slip.tsx';
import { SingAlongWord } from '../../ui/singing/sing-along-word.tsx';
import { MixesWord } from '../../ui/mixes/mixes-word.tsx';
import type { OwnShelf } from '../../ui/mixes/own-shelf.ts';
import { PlayButton } from '../../ui/play-button.tsx';
import { Setting } from '../../ui/setting.tsx';
import styles from './lesson.module.css';
import { promptOf } from './path-plan.ts';
import type { Listening, ListenStep } from './use-listening.ts';

interface PlayLineProps {
  readonly step: ListenStep;
  readonly music: ArrangedMusic;
  readonly listening: Listening;
  readonly ownMixes: OwnShelf | null;
}

/** Quarter notes a minute where an excerpt begins, as written. */
function writtenTempo({ score }: ArrangedMusic, startTicks: number): number {
  return score.tempos.findLast((mark) => mark.onsetTicks <= startTicks)?.quartersPerMinute ?? assumedTempo;
}

const lessonTouches = ['playOn', 'note', 'stroke', 'spread'] as const;

/** Play, what is played, and how: tempo, round again, which mix, and what is seldom changed. */
export function PlayLine({ step, music, listening, ownMixes }: PlayLineProps) {
  const { player, snapshot, chosen, isPlaying, isAgain, playOrStop, setAgain } = listening;
  const place = step.path.findIndex(({ id }) => id === chosen?.id);
  const prompt = promptOf(chosen, snapshot.stage, snapshot.pass);
  return (
    <div className={styles.play}>
      <PlayButton
        isPlaying={isPlaying}
        label={isPlaying ? 'Stop' : `Play ${chosen?.title ?? step.title}`}
        onPress={() => playOrStop()}
      />
      <p className={styles.now} aria-live="polite">
        {prompt ?? (
          <>
            {chosen === null ? null : (
              <b className="numbers">
                {place + 1} of {step.path.length}:{' '}
              </b>
            )}
            {chosen?.title ?? 'everybody'}
          </>
        )}
      </p>
      <div className={styles.words}>
        <Tempo music={music} listening={listening} />
        <WordToggle isSelected={isAgain} onChange={setAgain}>
          {isAgain ? 'round again' : 'played once'}
        </WordToggle>
        <SingAlongWord singing={listening.singing} player={player} />
        <Mixes step={step} music={music} listening={listening} ownMixes={ownMixes} />
        <HowItPlays player={player} touches={lessonTouches} repeats={listening.repeats} />
        <BreaksWord player={player} />
      </div>
    </div>
  );
}

/** The tempo, and behind it how to change it. */
function Tempo({ music, listening: { player, snapshot, range } }: Pick<PlayLineProps, 'music' | 'listening'>) {
  const written = writtenTempo(music, range.startTicks);
  const tempo = Math.round((written * snapshot.ratePercent) / 100);
  return (
    <DialogTrigger>
      <WordButton aria-label={`Tempo, ${tempo} quarter notes a minute`}>
        <span className="numbers">tempo {tempo}</span>
      </WordButton>
      <HangingSlip title="Tempo">
        <Setting
          label="How fast"
          value={snapshot.ratePercent}
          least={25}
          most={150}
          step={1}
          words={(percent) =>
            `${Math.round((written * percent) / 100)} quarter notes a minute, ${percent} % of the written tempo`
          }
          onSet={(percent) => player.setRate(percent)}
        />
      </HangingSlip>
    </DialogTrigger>
  );
}

/** The mixes that come with the step, and the listener's own. */
const Mixes = ({ step, music, listening, ownMixes }: PlayLineProps) => (
  <MixesWord
    lines={activeLines(music.split)}
    heard={{ ...listening.snapshot, lifted: listening.lifted }}
    given={step.mixes}
    own={ownMixes}
    onHear={listening.hear}
  />
);
