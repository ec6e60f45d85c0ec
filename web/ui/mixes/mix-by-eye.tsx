import { useState, type ReactNode } from 'react';
import type { Line } from '../../../music/index.ts';
import { lineTones } from '../../playback/line-tones.ts';
import type { HeardMix } from '../../playback/named-mixes.ts';
import { BareButton } from '../buttons.tsx';
import { Eye } from '../eye.tsx';
import styles from './mixes.module.css';

interface MixByEyeProps {
  readonly lines: readonly Line[];
  readonly heard: HeardMix;
  /** What is set about the line whose eye was pressed last. */
  readonly children: (line: Line) => ReactNode;
}

/** The lines of a mix as eyes; the one that is pressed is open below them. */
export function MixByEye({ lines, heard, children }: MixByEyeProps) {
  const [chosen, setChosen] = useState(lines[0]?.id);
  const line = lines.find(({ id }) => id === chosen) ?? lines[0];
  if (line === undefined) return null;
  const tones = lineTones(
    lines.map(({ id }) => id),
    heard,
  );
  return (
    <div className={styles.byEye}>
      <div className={styles.openEyes} role="group" aria-label="Lines">
        {lines.map((each) => (
          <BareButton
            key={each.id}
            aria-label={each.name}
            aria-pressed={each.id === line.id}
            onPress={() => setChosen(each.id)}
          >
            <Eye line={each} size={34} tone={tones.get(each.id) ?? 'plain'} />
          </BareButton>
        ))}
      </div>
      <h3>{line.name}</h3>
      {children(line)}
    </div>
  );
}
