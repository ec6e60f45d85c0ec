import { operationId } from '../../../music/index.ts';
import type { RoomClient } from '../../lib/room/room-client.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { Notice } from '../../ui/notice.tsx';
import { barsOfNotesWords } from './bar-words.ts';
import type { Table } from './table.ts';
import type { TableState } from './table-state.ts';

interface TableNoticesProps {
  readonly table: Table;
  readonly room: RoomClient;
  readonly state: TableState;
}

/** What went otherwise than one meant: marks that a colleague's overwrote, deeds that were refused. */
export function TableNotices({ table, room, state }: TableNoticesProps) {
  const { lostMarks, tray, refusal } = state.room;
  return (
    <>
      {refusal === null ? null : (
        <Notice kind="trouble">{refusal.detail} Your own marks are kept in this browser.</Notice>
      )}
      {state.problem === null ? null : (
        <Notice kind="trouble">
          {state.problem} <WordButton onPress={() => table.dismissProblem()}>Good</WordButton>
        </Notice>
      )}
      {lostMarks.length === 0 ? null : (
        <Notice kind="word">
          {[...new Set(lostMarks.map((mark) => mark.byName))].join(' and ')} marked the same notes at the same moment,
          in{' '}
          {barsOfNotesWords(
            state.score,
            lostMarks.map((mark) => mark.note),
          )}
          ; that mark came later and stands. <WordButton onPress={() => room.dismissLostMarks()}>Good</WordButton>
        </Notice>
      )}
      {tray.map(({ submission, detail }) => (
        <Notice key={submission.id} kind="trouble">
          A change was not taken: {detail} It is kept here.{' '}
          <WordButton onPress={() => saveAsFile(submission)}>Save it as a file</WordButton>{' '}
          <WordButton onPress={() => room.dismissRefused(operationId(submission.id))}>Let it go</WordButton>
        </Notice>
      ))}
    </>
  );
}

function saveAsFile(submission: object): void {
  const url = URL.createObjectURL(new Blob([JSON.stringify(submission, null, 2)], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = 'change-not-taken.json';
  link.click();
  URL.revokeObjectURL(url);
}
