import type { EngineReport } from '../../music/index.ts';

/** What of a report tells how far the sound has come. */
export type Progress = Pick<EngineReport, 'isPlaying' | 'stageKind' | 'positionSeconds'>;

/** How far from the very beginning and the very end still counts as whole: reports come some forty times a second. */
const nearSeconds = 0.25;

/** Tells from reports when the music has sounded from its beginning to its end without a leap. */
export class WholeHearing {
  private startSeconds: number | null = null;
  private lastSeconds = 0;

  /** A new playing begins; nothing of the one before counts. */
  begin(): void {
    this.startSeconds = null;
  }

  /** Takes the next report; tells whether it completes a whole hearing. **Units** seconds of the music. */
  follow({ isPlaying, stageKind, positionSeconds }: Progress, lengthSeconds: number): boolean {
    if (stageKind !== 'play') return false;
    const isBack = this.startSeconds !== null && positionSeconds < this.lastSeconds - nearSeconds / 2;
    const reached = isBack ? this.lastSeconds : positionSeconds;
    const isEnd = isBack || !isPlaying;
    const isWhole =
      isEnd && this.startSeconds !== null && this.startSeconds <= nearSeconds && reached >= lengthSeconds - nearSeconds;
    if (isBack || this.startSeconds === null) this.startSeconds = positionSeconds;
    if (!isPlaying) this.startSeconds = null;
    this.lastSeconds = positionSeconds;
    return isWhole;
  }
}
