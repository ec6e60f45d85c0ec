import { blockSamples } from './channel.ts';
import { Room } from './room.ts';

const roomGain = 0.11;
const roomRestBlocks = 700;

/** Where channels come together: both sides, and the room's answer to what they send it. */
export class Bus {
  readonly left = new Float32Array(blockSamples);
  readonly right = new Float32Array(blockSamples);
  readonly send = new Float32Array(blockSamples);
  private readonly room: Room;
  private quietBlocks = roomRestBlocks;

  constructor(sampleRate: number) {
    this.room = new Room(sampleRate);
  }

  /** Clears it for a new block. */
  begin(): void {
    this.left.fill(0);
    this.right.fill(0);
    this.send.fill(0);
    this.quietBlocks += 1;
  }

  /** A channel that is not at rest ends here. */
  keepAwake(): void {
    this.quietBlocks = 0;
  }

  /** The room goes on for a while after the last channel has come to rest, and then costs nothing. */
  finish(): void {
    if (this.quietBlocks < roomRestBlocks) this.room.render(this.send, this.left, this.right, blockSamples, roomGain);
    else if (this.quietBlocks === roomRestBlocks) this.room.clear();
  }

  /** Adds the finished block to both sides. */
  addTo(left: Float32Array, right: Float32Array): void {
    for (let index = 0; index < blockSamples; index += 1) {
      left[index] = (left[index] as number) + (this.left[index] as number);
      right[index] = (right[index] as number) + (this.right[index] as number);
    }
  }
}
