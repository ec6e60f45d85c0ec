import { useState } from 'react';
import type { Line, LineFace, LineRole } from '../../../music/index.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { Pick } from '../../ui/choice.tsx';
import { Field } from '../../ui/field.tsx';
import styles from './line-sheet.module.css';
import { roleParts } from './new-line.ts';
import type { Table } from './table.ts';

interface LineFaceFormProps {
  readonly table: Table;
  readonly line: Line;
  readonly onDone: () => void;
  readonly onClose: () => void;
}

/** A line's name, letter and role; retiring it stands here too. */
export function LineFaceForm({ table, line, onDone, onClose }: LineFaceFormProps) {
  const [face, setFace] = useState<LineFace>({ name: line.name, role: line.role, dye: line.dye, letter: line.letter });
  const takeRole = (role: LineRole) => {
    const part = roleParts.find((candidate) => candidate.role === role);
    if (part !== undefined) setFace({ ...face, role, dye: part.dye, letter: part.letter });
  };
  const isWhole = face.name.trim() !== '' && face.letter.trim() !== '';
  return (
    <form
      className={styles.form}
      onSubmit={(event) => {
        event.preventDefault();
        if (!isWhole) return;
        table.changeLine(line.id, { ...face, name: face.name.trim(), letter: face.letter.trim() });
        onDone();
      }}
    >
      <Field label="Name" value={face.name} onChange={(name) => setFace({ ...face, name })} maxLength={60} autoFocus />
      <Field label="Letter" value={face.letter} onChange={(letter) => setFace({ ...face, letter })} maxLength={2} />
      <Pick
        label="Role"
        value={face.role}
        options={roleParts.map((part) => ({ value: part.role, text: part.name }))}
        onPick={takeRole}
      />
      <div className={styles.words}>
        <WordButton type="submit" isDisabled={!isWhole}>
          Keep this name
        </WordButton>
        <WordButton onPress={onDone}>Leave it</WordButton>
        <WordButton
          onPress={() => {
            table.retireLine(line.id);
            onClose();
          }}
        >
          Retire this line
        </WordButton>
      </div>
    </form>
  );
}
