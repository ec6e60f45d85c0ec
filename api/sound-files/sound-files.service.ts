import { Injectable } from '@nestjs/common';
import type { SoundFilesJob, SoundFilesWish } from '../../contract/index.ts';
import { Clock } from '../clock/clock.ts';
import { DomainError, notFound } from '../errors/domain-error.ts';
import type { Person } from '../people/person.ts';
import { SongAccess } from '../scores/song-access.ts';
import { SoundMaterial } from './sound-material.ts';
import { SoundQueue, type SoundMaking } from './sound-queue.ts';

const MOST_UNFINISHED = 2;
const MOST_KEPT = 3;
const LONGEST_QUEUE = 16;

/** A file that lies ready. */
export interface ReadyFile {
  readonly name: string;
  readonly path: string;
  readonly bytes: number;
}

const isUnfinished = ({ phase }: SoundMaking): boolean => phase.kind === 'waiting' || phase.kind === 'rendering';
const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);

/** Sound files that are made for somebody; nobody else knows of them. */
@Injectable()
export class SoundFilesService {
  constructor(
    private readonly access: SongAccess,
    private readonly material: SoundMaterial,
    private readonly queue: SoundQueue,
    private readonly clock: Clock,
  ) {}

  /** **Errors** `not-found` without a score, `too-many-requests` where the person or everybody waits for too many. */
  async begin(by: Person, songId: string, wish: SoundFilesWish): Promise<SoundFilesJob> {
    await this.access.require(by, songId, 'song.see');
    const { name, job } = await this.material.of(by, songId, wish);
    const all = this.queue.all();
    const own = all.filter(({ personId }) => personId === by.id);
    if (own.filter(isUnfinished).length >= MOST_UNFINISHED)
      throw new DomainError('too-many-requests', 'Two makings of yours are under way. Wait for one, or stop it.');
    if (all.filter(isUnfinished).length >= LONGEST_QUEUE)
      throw new DomainError('too-many-requests', 'Many wait for sound just now. Please try again in some minutes.');
    const ended = own.filter((making) => !isUnfinished(making));
    for (const old of ended.slice(0, Math.max(0, ended.length - MOST_KEPT + 1))) this.queue.remove(old);
    return this.told(this.queue.add({ id: this.clock.newId(), personId: by.id, songId, name, job }));
  }

  /** **Errors** `not-found` for what is not one's own, was stopped, or lay for more than an hour. */
  async detail(by: Person, songId: string, id: string): Promise<SoundFilesJob> {
    return this.told(await this.own(by, songId, id));
  }

  async stop(by: Person, songId: string, id: string): Promise<void> {
    this.queue.remove(await this.own(by, songId, id));
  }

  async file(by: Person, songId: string, id: string): Promise<ReadyFile> {
    const { phase, name, job } = await this.own(by, songId, id);
    if (phase.kind !== 'ready') throw notFound('file');
    return { name, path: job.target, bytes: phase.bytes };
  }

  private async own(by: Person, songId: string, id: string): Promise<SoundMaking> {
    await this.access.require(by, songId, 'song.see');
    const making = this.queue.of(id);
    if (making === undefined || making.personId !== by.id || making.songId !== songId)
      throw notFound('making of sound');
    return making;
  }

  private told(making: SoundMaking): SoundFilesJob {
    const { id, phase, name, songId } = making;
    switch (phase.kind) {
      case 'waiting':
        return { id, state: 'waiting', place: this.queue.placeOf(making) };
      case 'rendering':
        return { id, state: 'rendering', share: phase.share };
      case 'failed':
        return { id, state: 'failed', detail: phase.detail };
      case 'ready':
        return {
          id,
          state: 'ready',
          url: `/api/songs/${songId}/sound-files/${id}/file`,
          name,
          bytes: phase.bytes,
          lengthSeconds: phase.rendered.lengthSeconds,
          sounds: phase.rendered.sounds.map(({ holds, name: file, loudnessLufs, truePeakDb }) => ({
            holds,
            name: file,
            loudnessLufs: finite(loudnessLufs),
            truePeakDb: finite(truePeakDb),
          })),
          keptUntil: this.queue.keptUntil(phase.readyAt).toISOString(),
        };
    }
  }
}
