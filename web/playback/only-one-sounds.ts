/** Something that can be told to be silent. */
export interface Sounding {
  stop(): void;
}

/** Lets one sound at a time: whoever begins ends whoever sounded before. */
export class OnlyOne {
  private current: Sounding | null = null;

  begin(sounding: Sounding): void {
    const before = this.current;
    this.current = sounding;
    if (before !== sounding) before?.stop();
  }

  /** Forgets somebody who is gone for good. */
  end(sounding: Sounding): void {
    if (this.current === sounding) this.current = null;
  }
}

/** Who sounds in this page. */
export const onlyOneSounds = new OnlyOne();
