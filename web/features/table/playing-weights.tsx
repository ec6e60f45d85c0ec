import { useMemo, useState } from 'react';
import type { Playing } from '../../../contract/index.ts';
import type { Line, Score } from '../../../music/index.ts';
import { barWords } from '../../engraving/place-words.ts';
import { levelWords } from '../../lib/sound-words.ts';
import { BareButton } from '../../ui/buttons.tsx';
import { Pick } from '../../ui/choice.tsx';
import { Eye } from '../../ui/eye.tsx';
import { Setting } from '../../ui/setting.tsx';
import { shareWords, weightAt, weightOfLine, withLineWeight, withSectionWeight, type Weight } from './playing-edit.ts';
import styles from './playing.module.css';
import { songSections } from './song-sections.ts';

type Change = (edit: (playing: Playing) => Playing) => void;

interface WeightSettingsProps {
  readonly weight: Weight;
  readonly onSet: (part: Partial<Weight>) => void;
}

const WeightSettings = ({ weight, onSet }: WeightSettingsProps) => (
  <>
    <Setting
      label="Level"
      value={weight.levelDb}
      least={-12}
      most={6}
      step={1}
      words={levelWords}
      onSet={(levelDb) => onSet({ levelDb })}
    />
    <Setting
      label="Loud and soft count"
      value={weight.dynamicsPercent}
      least={0}
      most={200}
      step={10}
      words={shareWords}
      onSet={(dynamicsPercent) => onSet({ dynamicsPercent })}
    />
  </>
);

interface LineWeightsProps {
  readonly playing: Playing;
  readonly lines: readonly Line[];
  readonly change: Change;
}

/** One line at a time, by its eye: how loud it is played, and how much of its loud and soft. */
export function LineWeights({ playing, lines, change }: LineWeightsProps) {
  const [chosen, setChosen] = useState(lines[0]?.id ?? null);
  const line = lines.find(({ id }) => id === chosen) ?? lines[0];
  if (line === undefined) return null;
  return (
    <section className={styles.part} aria-label="By line">
      <h3>By line</h3>
      <div className={styles.eyes}>
        {lines.map((each) => (
          <BareButton
            key={each.id}
            aria-label={each.name}
            aria-pressed={each.id === line.id}
            onPress={() => setChosen(each.id)}
          >
            <Eye line={each} size={34} tone={each.id === line.id ? 'forward' : 'plain'} />
          </BareButton>
        ))}
        <b>{line.name}</b>
      </div>
      <WeightSettings
        weight={weightOfLine(playing, line.id)}
        onSet={(part) => change((present) => withLineWeight(present, line.id, part))}
      />
    </section>
  );
}

interface SectionWeightsProps {
  readonly playing: Playing;
  readonly score: Score;
  readonly change: Change;
}

/** One section at a time: by its marks, its repeats, where the opening comes again, or from any bar that is chosen. */
export function SectionWeights({ playing, score, change }: SectionWeightsProps) {
  const [chosen, setChosen] = useState<string | null>(null);
  const { sections: set } = playing.expression;
  const picked = score.bars.find(({ id }) => id === chosen)?.id;
  const sections = useMemo(
    () => songSections(score, [...set.map(({ startBar }) => startBar), ...(picked === undefined ? [] : [picked])]),
    [score, set, picked],
  );
  const section = sections.find(({ startBar }) => startBar === chosen) ?? sections[0];
  if (section === undefined) return null;
  const beginnings = sections.map(({ startBar }) => startBar);
  return (
    <section className={styles.part} aria-label="By section">
      <h3>By section</h3>
      <div className={styles.picks}>
        <Pick
          label="Section"
          value={section.startBar}
          options={sections.map(({ startBar, name }) => ({ value: startBar, text: name }))}
          onPick={setChosen}
        />
        <Pick
          label="or begin one at bar"
          value={section.startBar}
          options={score.bars.map((bar) => ({ value: bar.id, text: barWords(bar) }))}
          onPick={setChosen}
        />
      </div>
      <WeightSettings
        weight={weightAt(playing, section.startBar)}
        onSet={(part) => change((present) => withSectionWeight(present, beginnings, section.startBar, part))}
      />
    </section>
  );
}
