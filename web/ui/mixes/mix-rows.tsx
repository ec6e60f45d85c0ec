import { useState } from 'react';
import { Button } from 'react-aria-components';
import type { NamedMix } from '../../../contract/index.ts';
import type { Line } from '../../../music/index.ts';
import { isNameTaken, withName, withoutMix } from '../../playback/mix-shelf.ts';
import { foundMix, type HeardMix } from '../../playback/named-mixes.ts';
import { WordButton, WordToggle } from '../buttons.tsx';
import { Form } from '../form.tsx';
import { MixEyes } from './mix-eyes.tsx';
import { MixName } from './mix-name.tsx';
import styles from './mixes.module.css';
import type { OwnShelf } from './own-shelf.ts';

interface MixRowsProps {
  readonly title: string | null;
  readonly mixes: readonly NamedMix[];
  readonly lines: readonly Line[];
  readonly own: OwnShelf | null;
  readonly isHeard: (mix: NamedMix) => boolean;
  readonly onHear: (heard: HeardMix) => void;
}

/** Mixes by name, each with the eyes of those who are heard; one's own can be renamed and forgotten. */
export function MixRows({ title, mixes, lines, own, isHeard, onHear }: MixRowsProps) {
  const [renamed, setRenamed] = useState<string | null>(null);
  const [isChanging, setChanging] = useState(false);
  if (mixes.length === 0) return null;
  return (
    <div role="group" aria-label={title ?? 'Mixes'}>
      <div className={styles.row}>
        <span className={styles.title}>{title}</span>
        {own === null ? null : (
          <WordToggle isSelected={isChanging} onChange={setChanging}>
            {isChanging ? 'Done' : 'Rename or forget'}
          </WordToggle>
        )}
      </div>
      <ul className={styles.rows}>
        {mixes.map((mix) => (
          <li key={mix.id} className={styles.row} data-mix={mix.name}>
            {own !== null && renamed === mix.id ? (
              <RenameMix mix={mix} own={own} onDone={() => setRenamed(null)} />
            ) : (
              <MixRow
                mix={mix}
                lines={lines}
                own={isChanging ? own : null}
                isHeard={isHeard(mix)}
                onHear={onHear}
                onRename={setRenamed}
              />
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}

interface MixRowProps extends Pick<MixRowsProps, 'lines' | 'own' | 'onHear'> {
  readonly mix: NamedMix;
  readonly isHeard: boolean;
  readonly onRename: (id: string) => void;
}

function MixRow({ mix, lines, own, isHeard, onHear, onRename }: MixRowProps) {
  const { heard, goneCount } = foundMix(
    mix,
    lines.map(({ id }) => id),
  );
  return (
    <>
      <Button className={styles.name ?? ''} aria-pressed={isHeard} onPress={() => onHear(heard)}>
        <MixEyes lines={lines} heard={heard} />
        <span>{mix.name}</span>
      </Button>
      {own === null ? null : (
        <span className={styles.deeds}>
          <WordButton aria-label={`Rename ${mix.name}`} onPress={() => onRename(mix.id)}>
            Rename
          </WordButton>
          <WordButton
            aria-label={`Forget ${mix.name}`}
            onPress={() => own.change((mixes) => withoutMix(mixes, mix.id))}
          >
            Forget
          </WordButton>
        </span>
      )}
      {goneCount === 0 ? null : (
        <p className={styles.gone}>
          {goneCount === 1 ? 'One line of it is' : `${goneCount} lines of it are`} no longer here.
        </p>
      )}
    </>
  );
}

interface RenameMixProps {
  readonly mix: NamedMix;
  readonly own: OwnShelf;
  readonly onDone: () => void;
}

function RenameMix({ mix, own, onDone }: RenameMixProps) {
  const [name, setName] = useState(mix.name);
  const isTaken = isNameTaken(own.mixes, mix.id, name);
  return (
    <Form
      flow="line"
      onSend={() => {
        if (isTaken) return;
        own.change((mixes) => withName(mixes, mix.id, name));
        onDone();
      }}
    >
      <MixName label="Its name" value={name} isTaken={isTaken} onChange={setName} autoFocus />
      <WordButton type="submit" isDisabled={isTaken}>
        Keep
      </WordButton>
    </Form>
  );
}
