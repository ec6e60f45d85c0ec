import { DialogTrigger } from 'react-aria-components';
import type { NamedMix } from '../../../contract/index.ts';
import type { Line } from '../../../music/index.ts';
import { foundMix, isSameMix, type HeardMix } from '../../playback/named-mixes.ts';
import { WordButton } from '../buttons.tsx';
import { HangingSlip } from '../hanging-slip.tsx';
import styles from './mixes.module.css';
import { MixRows } from './mix-rows.tsx';
import { KeepMix } from './keep-mix.tsx';
import type { OwnShelf } from './own-shelf.ts';

interface MixesProps {
  readonly lines: readonly Line[];
  readonly heard: HeardMix;
  /** Mixes that come with the music and cannot be changed here. */
  readonly given: readonly NamedMix[];
  /** Null where nothing is kept. */
  readonly own: OwnShelf | null;
  readonly onHear: (heard: HeardMix) => void;
}

/** A word that tells which named mix is heard; behind it all of them, to choose, to keep and to put away. */
export function MixesWord({ lines, heard, given, own, onHear }: MixesProps) {
  const ids = lines.map(({ id }) => id);
  const isHeard = (mix: NamedMix): boolean => isSameMix(foundMix(mix, ids).heard, heard, ids);
  const present = [...given, ...(own?.mixes ?? [])].find(isHeard);
  const rows = { lines, isHeard, onHear };
  return (
    <DialogTrigger>
      <WordButton>
        {present === undefined ? (
          'Mixes'
        ) : (
          <>
            Mix: <span className={styles.present}>{present.name}</span>
          </>
        )}
      </WordButton>
      <HangingSlip title="Mixes" placement="top start" width="roomy">
        {given.length === 0 ? null : <MixRows {...rows} title="with the lesson" mixes={given} own={null} />}
        {own === null ? null : (
          <>
            <MixRows {...rows} title={given.length === 0 ? null : 'your own'} mixes={own.mixes} own={own} />
            <KeepMix lines={lines} heard={heard} own={own} present={present} />
          </>
        )}
      </HangingSlip>
    </DialogTrigger>
  );
}
