import { Injectable } from '@nestjs/common';
import type { ReadingChoice, ScoreReading } from '../../contract/index.ts';
import { DomainError, notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { ScoreKeeper } from './score-keeper.ts';
import { ScoreReader, type ReadingTask } from './score-reader.ts';
import { ScoreUploaded } from './score-uploaded.ts';
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
    const wanted = present.reading === null ? choice : possible(choice, present.reading);
    if (present.reading !== null && isSame(wanted, present.reading.chosen)) return toldVersion(present);
    const task = await this.taskOf(song, present, wanted);
    const stored = await this.keeper.keep(by, task, await this.reader.read(task));
    if (stored === null) throw changedMeanwhile();
    const found = await this.uploaded.announce({ by, songId, version: stored.version });
    const told = toldVersion(stored);
    return { ...told, issues: [...told.issues, ...found] };
  }

  private async taskOf(song: SongEntity, present: ScoreVersionSummary, choice: ReadingChoice): Promise<ReadingTask> {
    const bytes = await this.versions.originalOf(present.id);
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

const isSame = (one: ReadingChoice, other: ReadingChoice): boolean =>
  one.tune === other.tune && one.grid === other.grid && one.octave === other.octave && one.capo === other.capo;

const refuse = (detail: string): never => {
  throw new DomainError('body-invalid', `${detail} Nothing was read again.`);
};

/** The tune that is meant: the file's first where none is named. */
function tuneOf({ tune }: ReadingChoice, { format, tunes }: ScoreReading): number | null {
  if (format !== 'abc') return tune === null ? null : refuse('Only ABC files have tunes to choose from.');
  if (tune === null) return tunes[0]?.number ?? null;
  if (tunes.some(({ number }) => number === tune)) return tune;
  return refuse(`The file has no tune ${tune}; it has ${tunes.map(({ number }) => number).join(', ')}.`);
}

/** A choice in full. **Errors** `body-invalid` for what the file does not leave open. */
function possible(choice: ReadingChoice, reading: ScoreReading): ReadingChoice {
  const { format, sounding } = reading;
  if (choice.grid !== null && format !== 'midi') refuse('A grid is chosen for MIDI files only.');
  if (choice.octave !== null && sounding.length === 0)
    refuse('No part of this score has frets and notes, so there is no octave to choose.');
  if (choice.capo !== null && sounding.every(({ capo }) => capo === null))
    refuse('No part of this score has a capo, so there is nothing to choose about it.');
  return { ...choice, tune: tuneOf(choice, reading) };
}
