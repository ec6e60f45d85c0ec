import { activeLines } from '../../../music/index.ts';
import type { SongSound } from '../../../contract/index.ts';
import { Check, Pick } from '../../ui/choice.tsx';
import type { ExportedSong } from './make-files.ts';
import { hasRepeats, heardOptions, type SoundChoice } from './sound-choice.ts';
import { repeatOptions } from './repeat-options.ts';

interface SoundFormProps {
  readonly song: ExportedSong;
  readonly sound: SongSound;
  readonly isExcerpt: boolean;
  readonly choice: SoundChoice;
  readonly onChoice: (choice: SoundChoice) => void;
}

const fileOptions = [
  { value: 'one', text: 'one file' },
  { value: 'stems', text: 'a file of all together and one of each line' },
] as const;

const tempos = [25, 40, 50, 60, 70, 75, 80, 85, 90, 95, 100, 105, 110, 120, 130, 140, 150];
const tempoOptions = tempos.map((percent) => ({
  value: String(percent),
  text: percent === 100 ? 'as written' : `${percent} % of the written`,
}));

const countIns = [
  { value: '0', text: 'at once' },
  { value: '1', text: 'after a bar of clicks' },
  { value: '2', text: 'after two bars of clicks' },
] as const;
const bars = { '0': 0, '1': 1, '2': 2 } as const;

const loudnesses = [
  { value: 'played', text: 'it sounds here, softly' },
  { value: '-23', text: '−23 LUFS, for broadcast' },
  { value: '-16', text: '−16 LUFS, for headphones' },
  { value: '-14', text: '−14 LUFS, for videos' },
] as const;
const targets = { played: null, '-23': -23, '-16': -16, '-14': -14 } as const;
const loudnessOf = ({ targetLufs }: SoundChoice): keyof typeof targets =>
  loudnesses.find(({ value }) => targets[value] === targetLufs)?.value ?? 'played';

/** What sound files hold, a sentence each. */
export function SoundForm({ song, sound, isExcerpt, choice, onChoice }: SoundFormProps) {
  const put = (change: Partial<SoundChoice>) => onChoice({ ...choice, ...change });
  return (
    <>
      <Pick
        label="One hears"
        value={choice.heard}
        options={heardOptions(activeLines(song.split), sound)}
        onPick={(heard) => put({ heard })}
      />
      <Pick
        label="in"
        value={choice.hasStems ? 'stems' : 'one'}
        options={fileOptions}
        onPick={(files) => put({ hasStems: files === 'stems' })}
      />
      <Pick
        label="The tempo is"
        value={String(choice.tempoPercent)}
        options={tempoOptions}
        onPick={(percent) => put({ tempoPercent: Number(percent) })}
      />
      {hasRepeats(song, isExcerpt) ? (
        <Pick
          label="Repeats are"
          value={choice.isUnfolded ? 'unfolded' : 'written'}
          options={repeatOptions}
          onPick={(repeats) => put({ isUnfolded: repeats === 'unfolded' })}
        />
      ) : null}
      <Pick
        label="It begins"
        value={String(choice.countInBars) as keyof typeof bars}
        options={countIns}
        onPick={(value) => put({ countInBars: bars[value] })}
      />
      <Pick
        label="It is as loud as"
        value={loudnessOf(choice)}
        options={loudnesses}
        onPick={(value) => put({ targetLufs: targets[value] })}
      />
      <Check isChosen={choice.hasClick} onChange={(hasClick) => put({ hasClick })}>
        with a click on every beat
      </Check>
    </>
  );
}
