import { Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';
import type { z } from 'zod';
import type { importIssue, ScoreReading } from '../../contract/index.ts';
import type { ScoreFacts } from '../../music/index.ts';

/** The notes of one part, in reading order. */
export interface PartNotes {
  readonly part: string;
  readonly notes: readonly string[];
}

/** One reading of a song's score: which file it was read from, what was read, and what was found on the way. */
@Entity('score_version')
@Unique('score_version_unique', ['songId', 'version'])
@ForeignKey('ScoreFileEntity', ['songId', 'fileHash'], ['songId', 'hash'], {
  name: 'score_version_file_fk',
  onDelete: 'CASCADE',
})
export class ScoreVersionEntity {
  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'score_version_pk' })
  id: string;

  @Column('uuid', { name: 'song_id' })
  @ForeignKey('SongEntity', { name: 'score_version_song_fk', onDelete: 'CASCADE' })
  songId: string;

  @Column('integer')
  version: number;

  @Column('text', { name: 'file_name' })
  fileName: string;

  /** SHA-256 of the file that it was read from, which the song keeps once. */
  @Column('text', { name: 'file_hash' })
  fileHash: string;

  @Column('integer', { name: 'byte_count' })
  byteCount: number;

  @Column('text', { name: 'normalised_xml', select: false })
  normalisedXml: string;

  /** SHA-256 of the normalised MusicXML; its ETag. */
  @Column('text', { name: 'normalised_hash' })
  normalisedHash: string;

  @Column('jsonb')
  facts: ScoreFacts;

  /** How it was read and what else could be chosen; null for a version from before this was kept. */
  @Column('jsonb', { nullable: true })
  reading: ScoreReading | null;

  @Column('jsonb')
  issues: z.output<typeof importIssue>[];

  @Column('jsonb', { name: 'note_ids', select: false })
  noteIds: PartNotes[];

  /** The parts that the file itself suggests to split. */
  @Column('text', { name: 'arrangement_parts', array: true })
  arrangementParts: string[];

  @Column('uuid', { name: 'uploaded_by' })
  @ForeignKey('PersonEntity', { name: 'score_version_person_fk' })
  uploadedBy: string;

  @Column('timestamptz', { name: 'uploaded_at' })
  uploadedAt: Date;
}
