import type { ReactNode } from 'react';
import { DialogTrigger } from 'react-aria-components';
import { loudestDb, softestDb, useOwnVolume } from '../lib/own-volume.ts';
import { WordButton } from '../ui/buttons.tsx';
import { Pick } from '../ui/choice.tsx';
import { HangingSlip } from '../ui/hanging-slip.tsx';
import { Setting } from '../ui/setting.tsx';
import styles from './how-it-plays.module.css';
import type { Touch } from './player-snapshot.ts';
import type { Player } from './player.ts';
import { clickNamed, clickNameOf, clickNames, playingSummary, touchWords, volumeWords } from './playing-words.ts';
import { usePlayer } from './react.ts';
import { useDeviceVolume } from './use-device-volume.ts';

interface HowItPlaysProps {
  readonly player: Player;
  /** What touching a note can do here. */
  readonly touches: readonly Touch[];
  /** Whether repeats are followed; null where there are none. */
  readonly repeats?: { readonly isFollowed: boolean; readonly onFollow: (isFollowed: boolean) => void } | null;
  /** What else stands below, given how to close the slip. */
  readonly more?: (close: () => void) => ReactNode;
}

/** What of the playing is seldom changed, behind one word that says what is otherwise than at first. */
export function HowItPlays({ player, touches, repeats = null, more }: HowItPlaysProps) {
  useDeviceVolume(player);
  const summary = playingSummary(usePlayer(player), repeats?.isFollowed ?? null);
  return (
    <DialogTrigger>
      <WordButton>
        <span data-otherwise={summary !== null} className={styles.word}>
          How it plays{summary === null ? null : <span className={styles.summary}>: {summary}</span>}
        </span>
      </WordButton>
      <HangingSlip title="How it plays" width="roomy">
        {({ close }) => (
          <>
            <Volume />
            <Clicks player={player} />
            {repeats === null ? null : (
              <Pick
                label="Repeats are"
                value={repeats.isFollowed ? 'followed' : 'printed'}
                options={repeatOptions}
                onPick={(chosen) => repeats.onFollow(chosen === 'followed')}
              />
            )}
            <Touching player={player} touches={touches} />
            {more === undefined ? null : <div className={styles.more}>{more(close)}</div>}
          </>
        )}
      </HangingSlip>
    </DialogTrigger>
  );
}

/** The level of everything together on this device, and the care that belongs to it. */
function Volume() {
  const [volumeDb, keep] = useOwnVolume();
  return (
    <>
      <Setting
        label="Volume"
        value={volumeDb}
        least={softestDb}
        most={loudestDb}
        step={1}
        words={volumeWords}
        onSet={keep}
      />
      <p className={styles.care}>
        Mind your ears, above all with headphones: what is loud for long harms hearing for good. Begin softly, and rest
        them now and then.
      </p>
    </>
  );
}

/** The clicks before the music and along with it. */
function Clicks({ player }: { readonly player: Player }) {
  const { click, countInBars } = usePlayer(player);
  return (
    <>
      <Pick
        label="It begins"
        value={`${countInBars}`}
        options={countIns}
        onPick={(bars) => player.setCountIn(barsOf[bars])}
      />
      <Pick
        label="The click is"
        value={clickNameOf(click)}
        options={clickNames}
        onPick={(name) => player.setClick(clickNamed(name, click))}
      />
    </>
  );
}

interface TouchingProps {
  readonly player: Player;
  readonly touches: readonly Touch[];
}

const Touching = ({ player, touches }: TouchingProps) => (
  <Pick
    label="Touching a note"
    value={usePlayer(player).touch}
    options={touches.map((value) => ({ value, text: touchWords[value] }))}
    onPick={(touch) => player.setTouch(touch)}
  />
);

const repeatOptions = [
  { value: 'followed', text: 'followed' },
  { value: 'printed', text: 'left out: as printed' },
] as const;

const countIns = [
  { value: '0', text: 'at once' },
  { value: '1', text: 'after one bar counted in' },
  { value: '2', text: 'after two bars counted in' },
] as const;
const barsOf = { '0': 0, '1': 1, '2': 2 } as const;
