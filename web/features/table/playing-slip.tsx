import { useSyncExternalStore } from 'react';
import { plainPlaying, type Playing } from '../../../contract/index.ts';
import { activeLines } from '../../../music/index.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { Slip } from '../../ui/dialog.tsx';
import { Notice, Wait } from '../../ui/notice.tsx';
import { Setting } from '../../ui/setting.tsx';
import type { Desk } from './desk.ts';
import { handWords, shareWords } from './playing-edit.ts';
import { LineWeights, SectionWeights } from './playing-weights.tsx';
import styles from './playing.module.css';
import type { TableState } from './table-state.ts';

interface PlayingFormProps {
  readonly desk: Desk;
  readonly state: TableState;
}

interface PlayingSlipProps extends PlayingFormProps {
  readonly isOpen: boolean;
  readonly onClose: () => void;
}

/** How the song is played: for all its teachers, and for lessons that are released from now on. */
export function PlayingSlip({ desk, state, isOpen, onClose }: PlayingSlipProps) {
  const close = () => {
    onClose();
    void desk.kept.load();
  };
  return (
    <Slip title="How the song is played" isOpen={isOpen} onClose={close}>
      <PlayingForm desk={desk} state={state} />
    </Slip>
  );
}

function PlayingForm({ desk: { kept }, state: { score, room } }: PlayingFormProps) {
  const { document, trouble } = useSyncExternalStore(kept.subscribe, kept.getSnapshot);
  const again = <WordButton onPress={() => void kept.load()}>Try again</WordButton>;
  const failed =
    trouble === null ? null : (
      <Notice kind="trouble">
        Not kept yet: {trouble} {again}
      </Notice>
    );
  if (document === null) return failed ?? <Wait>Fetching how it is played…</Wait>;
  const { playing } = document;
  const change = (edit: (playing: Playing) => Playing) =>
    kept.changeAtRest((present) => ({ ...present, playing: edit(present.playing) }));
  return (
    <div className={styles.form}>
      <p className={styles.hint}>
        This is how the song sounds for everybody at this table, and in lessons that are released from now on.
      </p>
      <Counts playing={playing} change={change} />
      <LineWeights playing={playing} lines={activeLines(room.split)} change={change} />
      <SectionWeights playing={playing} score={score} change={change} />
      <WordButton onPress={() => change(() => plainPlaying)}>All as written</WordButton>
      {failed}
    </div>
  );
}

interface CountsProps {
  readonly playing: Playing;
  readonly change: (edit: (playing: Playing) => Playing) => void;
}

/** How much the score's own signs count, and how even the hand is. */
function Counts({ playing: { expression, human }, change }: CountsProps) {
  const express = (part: Partial<Playing['expression']>) =>
    change((playing) => ({ ...playing, expression: { ...playing.expression, ...part } }));
  const seed = human?.seed ?? 1;
  return (
    <div className={styles.counts}>
      <Setting
        label="Loud and soft count"
        value={expression.dynamicsPercent}
        least={0}
        most={200}
        step={10}
        words={shareWords}
        onSet={(dynamicsPercent) => express({ dynamicsPercent })}
      />
      <Setting
        label="Accents count"
        value={expression.stressPercent}
        least={0}
        most={200}
        step={10}
        words={shareWords}
        onSet={(stressPercent) => express({ stressPercent })}
      />
      <Setting
        label="The hand"
        value={human?.amount ?? 0}
        least={0}
        most={1}
        step={0.1}
        words={handWords}
        onSet={(value) => {
          const amount = Math.round(value * 10) / 10;
          change((playing) => ({ ...playing, human: amount === 0 ? null : { seed, amount } }));
        }}
      />
      {human === null ? null : (
        <WordButton onPress={() => change((playing) => ({ ...playing, human: { ...human, seed: (seed % 9999) + 1 } }))}>
          Play it anew by hand
        </WordButton>
      )}
    </div>
  );
}
