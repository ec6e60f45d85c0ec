import { useState } from 'react';
import { mixNamed, type NamedMix } from '../../../contract/index.ts';
import type { Line } from '../../../music/index.ts';
import { withMix } from '../../playback/mix-shelf.ts';
import { namedMixOf, type HeardMix } from '../../playback/named-mixes.ts';
import { newlyOffered, offeredMixes } from '../../playback/offered-mixes.ts';
import { WordButton } from '../buttons.tsx';
import { Field } from '../field.tsx';
import { Form } from '../form.tsx';
import { Notice } from '../notice.tsx';
import styles from './mixes.module.css';
import type { OwnShelf } from './own-shelf.ts';

const newId = (): string => crypto.randomUUID();

interface KeepMixProps {
  readonly lines: readonly Line[];
  readonly heard: HeardMix;
  readonly own: OwnShelf;
  /** The named mix that is heard just now. */
  readonly present: NamedMix | undefined;
}

/** Keeps what is heard under a name, and offers the mixes that the lines suggest. */
export function KeepMix({ lines, heard, own, present }: KeepMixProps) {
  const [name, setName] = useState('');
  const offered = newlyOffered(offeredMixes(lines, newId), own.mixes);
  const isKnown = mixNamed(own.mixes, name) !== undefined;
  const ids = lines.map(({ id }) => id);
  return (
    <>
      {own.mixes.length === 0 ? (
        <p className={styles.hint}>A mix is who is heard, how loud and from where, under a name.</p>
      ) : null}
      <Form
        flow="line"
        onSend={() => {
          own.change((mixes) => withMix(mixes, namedMixOf(newId(), name.trim(), heard, ids)));
          setName('');
        }}
      >
        <Field
          label="Keep what is heard as"
          value={name}
          onChange={setName}
          maxLength={60}
          isRequired
          placeholder={present === undefined ? 'a name' : 'another name'}
        />
        <WordButton type="submit">{isKnown ? 'Keep in its place' : 'Keep'}</WordButton>
      </Form>
      {offered.length === 0 || lines.length < 2 ? null : (
        <WordButton onPress={() => own.change((mixes) => [...mixes, ...newlyOffered(offered, mixes)])}>
          {own.mixes.length === 0 ? 'Write a set from the lines' : 'Add what the lines suggest'}
        </WordButton>
      )}
      {own.trouble === null ? null : (
        <Notice kind="trouble">
          Not kept yet: {own.trouble} <WordButton onPress={own.again}>Try again</WordButton>
        </Notice>
      )}
    </>
  );
}
