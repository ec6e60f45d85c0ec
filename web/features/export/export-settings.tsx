import type { Line } from '../../../music/index.ts';
import { Check, Pick } from '../../ui/choice.tsx';
import { repeatOptions } from './repeat-options.ts';
import { openSettings, type ExportChoice } from './export-wish.ts';

interface ExportSettingsProps {
  readonly lines: readonly Line[];
  readonly choice: ExportChoice;
  readonly put: (change: Partial<ExportChoice>) => void;
}

const lengthOptions = [
  { value: 'next', text: 'until the line’s next note' },
  { value: 'written', text: 'as the score has them' },
  { value: 'string', text: 'until their string is struck again' },
] as const;

const groundOptions = [
  { value: 'light', text: 'something light' },
  { value: 'dark', text: 'something dark' },
] as const;

const sizes = [
  { value: '1', text: 'as on the screen' },
  { value: '2', text: 'twice as many' },
  { value: '4', text: 'four times as many' },
] as const;
const enlargements = { '1': 1, '2': 2, '4': 4 } as const;

/** What a choice leaves open, a sentence each. */
export function ExportSettings({ lines, choice, put }: ExportSettingsProps) {
  const open = openSettings(choice);
  return (
    <>
      {open.lengths ? (
        <Pick
          label="Notes last"
          value={choice.lengths}
          options={lengthOptions}
          onPick={(lengths) => put({ lengths })}
        />
      ) : null}
      {open.marks ? <LineSettings lines={lines} choice={choice} put={put} /> : null}
      {open.ground ? (
        <Pick label="Laid over" value={choice.ground} options={groundOptions} onPick={(ground) => put({ ground })} />
      ) : null}
      {open.enlargement ? (
        <Pick
          label="Pixels:"
          value={enlargementText(choice)}
          options={sizes}
          onPick={(size) => put({ enlargement: enlargements[size] })}
        />
      ) : null}
      {open.repeats ? (
        <Pick
          label="Repeats are"
          value={choice.isUnfolded ? 'unfolded' : 'written'}
          options={repeatOptions}
          onPick={(repeats) => put({ isUnfolded: repeats === 'unfolded' })}
        />
      ) : null}
      {open.tablature ? (
        <Check isChosen={choice.hasTablature} onChange={(hasTablature) => put({ hasTablature })}>
          with each line’s own tablature
        </Check>
      ) : null}
    </>
  );
}

const enlargementText = ({ enlargement }: ExportChoice): keyof typeof enlargements =>
  enlargement === 4 ? '4' : enlargement === 2 ? '2' : '1';

const markOptions = [
  { value: 'threads', text: 'in colours, with threads' },
  { value: 'colours', text: 'in colours' },
  { value: 'none', text: 'not at all' },
] as const;

function LineSettings({ lines, choice, put }: ExportSettingsProps) {
  const lifts = lines.map((line): { value: string; text: string } => ({
    value: line.id,
    text: `${line.name}, the others pale`,
  }));
  return (
    <>
      <Pick label="Lines are shown" value={choice.marks} options={markOptions} onPick={(marks) => put({ marks })} />
      {openSettings(choice).lifted ? (
        <Pick
          label="Standing out:"
          value={choice.lifted ?? ''}
          options={[{ value: '', text: 'all lines alike' }, ...lifts]}
          onPick={(id) => put({ lifted: lines.find((line) => line.id === id)?.id ?? null })}
        />
      ) : null}
    </>
  );
}
