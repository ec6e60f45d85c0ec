import { useQueryClient } from '@tanstack/react-query';
import { queries } from '../../lib/api/queries.ts';
import { changeSong, type SongDetail } from '../../lib/api/songs.ts';
import { Renaming } from '../../ui/renaming.tsx';

interface RenameSongProps {
  readonly song: SongDetail;
}

/** Changes a song's name and by whom it is. */
export function RenameSong({ song }: RenameSongProps) {
  const cache = useQueryClient();
  return (
    <Renaming
      word="Name and composer"
      known={{ title: song.title, second: song.composer }}
      second={{
        label: 'By whom',
        hint: 'You can leave it out. Released lessons keep the name they have.',
        maxLength: 120,
      }}
      keep={async ({ title, second }) => {
        await changeSong(song.id, { title, composer: second });
        await Promise.all([
          cache.invalidateQueries({ queryKey: queries.song(song.id).queryKey, exact: true }),
          cache.invalidateQueries({ queryKey: queries.course(song.courseId).queryKey }),
        ]);
      }}
    />
  );
}
