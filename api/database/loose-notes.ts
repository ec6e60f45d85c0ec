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
