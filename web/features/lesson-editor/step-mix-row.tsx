import { useState } from 'react';
import type { NamedMix } from '../../../contract/index.ts';
import type { Line } from '../../../music/index.ts';
import { isNameTaken, withName, withoutMix } from '../../playback/mix-shelf.ts';
import { foundMix } from '../../playback/named-mixes.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { MixEyes } from '../../ui/mixes/mix-eyes.tsx';
import { MixName } from '../../ui/mixes/mix-name.tsx';
import styles from './editor.module.css';
import type { HeardExcerpt } from './hear-mix.tsx';
import { NamedMixSlip } from './named-mix-slip.tsx';

interface StepMixRowProps {
  readonly mix: NamedMix;
  readonly mixes: readonly NamedMix[];
  readonly lines: readonly Line[];
  readonly excerpt: HeardExcerpt | null;
  readonly onChange: (mixes: NamedMix[]) => void;
}

/** One named mix of a step: who is heard in it, its name, how it sounds. */
export function StepMixRow({ mix, mixes, lines, excerpt, onChange }: StepMixRowProps) {
  const [name, setName] = useState(mix.name);
  const { heard } = foundMix(
    mix,
    lines.map(({ id }) => id),
  );
  return (
    <li>
      <MixEyes lines={lines} heard={heard} />
      <MixName
        label={`Name of the mix ${mix.name}`}
        isLabelHidden
        value={name}
        isTaken={isNameTaken(mixes, mix.id, name)}
        onChange={setName}
        onBlur={() => {
          if (name.trim() === '') setName(mix.name);
          else onChange(withName(mixes, mix.id, name));
        }}
      />
      <span className={styles.deeds}>
        {excerpt === null ? null : (
          <NamedMixSlip
            mix={mix}
            lines={lines}
            excerpt={excerpt}
            onChange={(changed) => onChange(mixes.map((each) => (each.id === mix.id ? changed : each)))}
          />
        )}
        <WordButton aria-label={`Leave out ${mix.name}`} onPress={() => onChange(withoutMix(mixes, mix.id))}>
          Leave out
        </WordButton>
      </span>
    </li>
  );
}
