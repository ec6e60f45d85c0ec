import type { Playing, ReleaseContent } from '../../../contract/index.ts';
import { activeLines } from '../../../music/index.ts';
import type { LessonText } from '../../lib/api/lessons.ts';
import type { SongDetail } from '../../lib/api/songs.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';

/** The lesson as a release of this moment would be. */
export const previewContent = (
  text: LessonText,
  song: SongDetail,
  music: ArrangedMusic,
  playing: Playing,
): ReleaseContent => ({
  schema: 1,
  title: text.title,
  song: { title: song.title, composer: song.composer },
  steps: [...text.steps],
  playing,
  musicXml: music.musicXml,
  arrangementParts: song.arrangementParts ?? [],
  lines: [...activeLines(music.split)],
  marks: [...music.split.marks].map(([note, mark]) => [note, [...mark.lines]]),
});
