import { atNextOccasion } from './next-occasion.ts';

/** Where playing begins, and how. */
export interface Beginning {
  readonly fromSeconds: number;
  readonly pass: number;
  readonly countInBars: number;
}

/** How playing goes on after its device was lost: once at once, then only as a person or a device gives occasion. */
export class GoingOn {
  /** Where playing is to go on through a new device, until it does; null where nothing was lost. */
  place: Beginning | null = null;
  private mayAtOnce = true;
  private giveUp: () => void = () => undefined;

  /** Nothing is to go on any more. */
  forget(): void {
    this.place = null;
    this.giveUp();
  }

  /** A playing begins; should it be lost, it may go on at once. */
  begin(): void {
    this.forget();
    this.mayAtOnce = true;
  }

  /** Playing goes on from a place by `begin`, which also forgets. Tells when. */
  from(place: Beginning, wasPlaying: boolean, begin: (place: Beginning) => void): 'now' | 'later' {
    const goOn = (): void => {
      begin(place);
      this.place = place;
    };
    if (!wasPlaying || !this.mayAtOnce) {
      this.giveUp = atNextOccasion(goOn);
      return 'later';
    }
    goOn();
    this.mayAtOnce = false;
    return 'now';
  }
}
