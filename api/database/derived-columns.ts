/** SQL for the notes of a `song`'s arrangement that are on no line. */
export const LOOSE_NOTES = `
  (SELECT count(*)::int
     FROM score_version AS latest
    CROSS JOIN LATERAL jsonb_array_elements(latest.note_ids) AS part
    CROSS JOIN LATERAL jsonb_array_elements_text(part -> 'notes') AS note (id)
    WHERE latest.song_id = song.id
      AND latest.version = (SELECT max(version) FROM score_version WHERE song_id = song.id)
      AND part ->> 'part' = ANY (COALESCE(song.arrangement_parts, latest.arrangement_parts))
      AND NOT EXISTS (SELECT 1 FROM mark WHERE mark.song_id = song.id AND mark.note_id = note.id AND cardinality(mark.lines) > 0))`;

/** SQL for whether a `lesson`, its split, its score or how its song is played has changed since its latest release. */
export const CHANGED_SINCE_RELEASE = `
  (lesson.released_version IS NOT NULL AND (
     lesson.released_version <> lesson.version
     OR lesson.released_split_revision <> (SELECT revision FROM split WHERE split.song_id = lesson.song_id)
     OR lesson.released_score_version <> (SELECT max(version) FROM score_version WHERE score_version.song_id = lesson.song_id)
     OR COALESCE(lesson.released_playing_version, 0)
        <> COALESCE((SELECT playing_version FROM song_sound WHERE song_sound.song_id = lesson.song_id), 0)))`;
