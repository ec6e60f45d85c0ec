/** What services may not take from the air: the time, chance and new names. Tests pass their own. */
export abstract class Clock {
  abstract now(): Date;
  /** A new UUIDv7. */
  abstract newId(): string;
  /** Unguessable bytes for links and codes. */
  abstract randomBytes(count: number): Uint8Array;
}
