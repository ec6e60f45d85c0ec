import { Injectable } from '@nestjs/common';
import { isSameChoice, type ReadingChoice } from '../../contract/index.ts';
import { DomainError, notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { possibleChoice } from './possible-choice.ts';
import { ScoreKeeper } from './score-keeper.ts';
import { ScoreReader, type ReadingTask } from './score-reader.ts';
import { ScoreUploaded } from './score-uploaded.ts';
import { ScoreFileRepository } from './score-file.repository.ts';
import {
  ScoreVersionRepository,
  toldVersion,
  type ScoreVersionSummary,
  type ToldVersion,
} from './score-version.repository.ts';
import { SongAccess } from './song-access.ts';
import type { SongEntity } from './song.entity.ts';

const changedMeanwhile = (): DomainError =>
  new DomainError(
    'changed-meanwhile',
    'Somebody else changed this song meanwhile. Nothing was read again; look at it, then choose.',
  );

/** What a file leaves open is read as a person chooses, without sending the file again. */
@Injectable()
export class ReadingsService {
  constructor(
    private readonly versions: ScoreVersionRepository,
    private readonly files: ScoreFileRepository,
    private readonly access: SongAccess,
    private readonly reader: ScoreReader,
    private readonly keeper: ScoreKeeper,
    private readonly uploaded: ScoreUploaded,
  ) {}

  /** The check that comes before what else a request may lack. **Errors** `not-found`, `not-permitted`. */
  require(by: Person, songId: string): Promise<SongEntity> {
    return this.access.require(by, songId, 'score.upload');
  }

  /** The score read again as chosen, as its next version; the present one where it was read so already. Notes keep their names, also those of an earlier reading that is chosen again. **Errors** `changed-meanwhile`, `body-invalid` for what the file does not leave open, `file-refused`, `reading-timed-out`, `too-large`. */
  async readAgain(by: Person, songId: string, choice: ReadingChoice, seenVersion: number): Promise<ToldVersion> {
    const song = await this.require(by, songId);
    const present = await this.versions.latestOf(songId);
    if (present === null) throw new DomainError('not-found', 'This song has no score yet.');
    if (song.version !== seenVersion) throw changedMeanwhile();
    const wanted = present.reading === null ? choice : possibleChoice(choice, present.reading);
    if (present.reading !== null && isSameChoice(wanted, present.reading.chosen)) return toldVersion(present);
    const task = await this.taskOf(song, present, wanted);
    const stored = await this.keeper.keep(by, task, await this.reader.read(task));
    if (stored === null) throw changedMeanwhile();
    const found = await this.uploaded.announce({ by, songId, version: stored.version });
    const told = toldVersion(stored);
    return { ...told, issues: [...told.issues, ...found] };
  }

  private async taskOf(song: SongEntity, present: ScoreVersionSummary, choice: ReadingChoice): Promise<ReadingTask> {
    const bytes = await this.files.bytesOf({ songId: song.id, hash: present.fileHash });
    if (bytes === null) throw notFound('score');
    const alike = await this.versions.sameMusicAs(present.id, choice.tune);
    return {
      song,
      present,
      file: { fileName: present.fileName, bytes },
      wish: { kind: 'chosen', choice },
      namesOf: { versionId: alike ?? present.id, isSameMusic: alike !== null },
    };
  }
}
