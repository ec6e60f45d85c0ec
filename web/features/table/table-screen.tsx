import { useQuery } from '@tanstack/react-query';
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { useParams, useSearchParams } from 'react-router';
import type { Excerpt, Score } from '../../../music/index.ts';
import { loadEngraver } from '../../engraving/engraver.ts';
import { queries } from '../../lib/api/queries.ts';
import { arrangementIn } from '../../lib/arranged-music.ts';
import { paths } from '../../lib/paths.ts';
import type { ExportSlot } from '../../ui/export-slot.ts';
import { WordLink } from '../../ui/buttons.tsx';
import { Notice, Wait } from '../../ui/notice.tsx';
import { PageFrame } from '../../ui/page-frame.tsx';
import { openDesk, type Desk } from './desk.ts';
import { excerptFromText, excerptText } from './excerpt-text.ts';
import { TableDesk } from './table-desk.tsx';
import type { TableView } from './table-state.ts';

const viewNames: readonly TableView[] = ['stacked', 'threaded', 'writtenOut', 'ribbons'];

interface TableScreenProps {
  readonly ExportSlip: ExportSlot;
}

/** A song's splitting table, from its address. */
export function TableScreen({ ExportSlip }: TableScreenProps) {
  const { songId = '' } = useParams();
  const song = useQuery(queries.song(songId));
  const text = useQuery({
    ...queries.scoreText(songId),
    enabled: song.data?.score !== null && song.data !== undefined,
  });
  const me = useQuery(queries.me());
  useEffect(() => {
    loadEngraver().catch(() => undefined); // told by the sheet, which asks again
  }, []);
  const failure = song.error ?? text.error ?? me.error;
  if (failure !== null) return <Waiting>{<Notice kind="trouble">{failure.message}</Notice>}</Waiting>;
  if (song.data?.score === null) {
    return (
      <Waiting>
        <Notice kind="word">
          There is no score yet. <WordLink to={paths.song(songId)}>Bring one in</WordLink>
        </Notice>
      </Waiting>
    );
  }
  if (song.data === undefined || text.data === undefined || me.data === undefined || me.data === null) {
    return <Waiting>{<Wait>Laying out the score…</Wait>}</Waiting>;
  }
  return (
    <ArrangedTable
      songId={songId}
      title={song.data.title}
      musicXml={text.data}
      parts={song.data.arrangementParts}
      personId={me.data.id}
      ExportSlip={ExportSlip}
    />
  );
}

const Waiting = ({ children }: { readonly children: React.ReactNode }) => (
  <PageFrame title="Splitting table" width="wide">
    {children}
  </PageFrame>
);

interface ArrangedTableProps {
  readonly songId: string;
  readonly title: string;
  readonly musicXml: string;
  readonly parts: readonly string[] | null;
  readonly personId: string;
  readonly ExportSlip: ExportSlot;
}

function ArrangedTable({ songId, title, musicXml, parts, personId, ExportSlip }: ArrangedTableProps) {
  const partNames = parts?.join(' ') ?? '';
  const score = useMemo<Score>(
    () => arrangementIn(musicXml, partNames === '' ? null : partNames.split(' ')),
    [musicXml, partNames],
  );
  const [desk, setDesk] = useState<Desk | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [address, setAddress] = useSearchParams();
  const opening = useRef({ view: address.get('view'), bars: address.get('bars') });
  useEffect(() => {
    let isHere = true;
    let opened: Desk | null = null;
    const view = viewNames.find((name) => name === opening.current.view) ?? 'threaded';
    const excerpt = excerptFromText(opening.current.bars, score);
    openDesk({ songId, personId, score, view, excerpt }).then(
      (made) => {
        opened = made;
        if (isHere) setDesk(made);
        else made.close();
      },
      (reason: unknown) => setTrouble(reason instanceof Error ? reason.message : 'no reason given'),
    );
    return () => {
      isHere = false;
      opened?.close();
    };
  }, [songId, personId, score]);
  const tellAddress = useCallback(
    ({ view, excerpt }: { readonly view?: TableView; readonly excerpt?: Excerpt | null }) =>
      setAddress(
        (present) => {
          const next = new URLSearchParams(present);
          if (view !== undefined) next.set('view', view);
          if (excerpt === null) next.delete('bars');
          else if (excerpt !== undefined) next.set('bars', excerptText(excerpt));
          return next;
        },
        { replace: true },
      ),
    [setAddress],
  );
  if (trouble !== null)
    return <Waiting>{<Notice kind="trouble">The table could not be opened: {trouble}</Notice>}</Waiting>;
  if (desk === null) return <Waiting>{<Wait>Laying out the score…</Wait>}</Waiting>;
  return (
    <TableDesk desk={desk} title={title} musicXml={musicXml} onAddress={tellAddress} takeOut={{ songId, ExportSlip }} />
  );
}
