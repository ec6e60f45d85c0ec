import type { Tuning } from '../score/score.ts';
import { blockSamples } from './channel.ts';
import { Room } from './room.ts';
import { SympatheticStrings } from './sympathetic-strings.ts';

const roomGain = 0.11;
const restBlocks = 700;
/** How long a hand lies on the open strings when a line is taken away. */
const hushSeconds = 0.3;

/** Where channels come together: both sides, and what open strings and the room answer to what they send. */
export class Bus {
  readonly left = new Float32Array(blockSamples);
  readonly right = new Float32Array(blockSamples);
  readonly send = new Float32Array(blockSamples);
  readonly ring = new Float32Array(blockSamples);
  private readonly answer = new Float32Array(blockSamples);
  private readonly strings: SympatheticStrings;
  private readonly room: Room;
  private readonly hushBlocks: number;
  private hushLeft = 0;
  private isDamped = false;
  private quietBlocks = restBlocks;

  constructor(sampleRate: number) {
    this.strings = new SympatheticStrings(sampleRate);
    this.room = new Room(sampleRate);
    this.hushBlocks = Math.ceil((hushSeconds * sampleRate) / blockSamples);
  }

  /** Clears it for a new block. */
  begin(): void {
    this.left.fill(0);
    this.right.fill(0);
    this.send.fill(0);
    this.ring.fill(0);
    this.quietBlocks += 1;
    if (this.hushLeft === 0) return;
    this.hushLeft -= 1;
    if (this.hushLeft === 0) this.strings.damp(this.isDamped);
  }

  /** A channel that is not at rest ends here. */
  keepAwake(): void {
    this.quietBlocks = 0;
  }

  /** Tunes the open strings; as usual where it is unknown how. */
  tune(tuning: Tuning | null): void {
    this.strings.tune(tuning);
  }

  /** Lays the hand on the open strings, or takes it off. */
  damp(isDamped: boolean): void {
    this.isDamped = isDamped;
    this.strings.damp(isDamped || this.hushLeft > 0);
  }

  /** Lays the hand on the open strings for a moment, so that they do not go on with a line that is taken away. */
  hush(): void {
    this.hushLeft = this.hushBlocks;
    this.strings.damp(true);
  }

  /** Strings and room go on for a while after the last channel has come to rest, and then cost nothing. */
  finish(): void {
    if (this.quietBlocks < restBlocks) this.addAnswers();
    else if (this.quietBlocks === restBlocks) {
      this.strings.clear();
      this.room.clear();
    }
  }

  private addAnswers(): void {
    const { send, ring, answer, left, right } = this;
    answer.fill(0);
    this.strings.render(ring, answer, blockSamples);
    for (let index = 0; index < blockSamples; index += 1) {
      const sample = answer[index] as number;
      left[index] = (left[index] as number) + sample;
      right[index] = (right[index] as number) + sample;
      send[index] = (send[index] as number) + sample;
    }
    this.room.render(send, left, right, blockSamples, roomGain);
  }

  /** Adds the finished block to both sides. */
  addTo(left: Float32Array, right: Float32Array): void {
    for (let index = 0; index < blockSamples; index += 1) {
      left[index] = (left[index] as number) + (this.left[index] as number);
      right[index] = (right[index] as number) + (this.right[index] as number);
    }
  }
}
