import type { Sink } from '../../../recording/index.ts';

const pieceBytes = 1 << 20;

/** Bytes in pieces of a megabyte: nothing is copied as it grows, and what was written can be written over. */
export class PieceSink implements Sink {
  private pieces: Uint8Array<ArrayBuffer>[] = [];
  private length = 0;

  write(bytes: Uint8Array, at: number): void {
    for (let done = 0; done < bytes.length;) {
      const place = at + done;
      const piece = this.pieceAt(Math.floor(place / pieceBytes));
      const within = place % pieceBytes;
      const part = bytes.subarray(done, done + pieceBytes - within);
      piece.set(part, within);
      done += part.length;
    }
    this.length = Math.max(this.length, at + bytes.length);
  }

  private pieceAt(index: number): Uint8Array<ArrayBuffer> {
    for (let next = this.pieces.length; next <= index; next += 1) this.pieces.push(new Uint8Array(pieceBytes));
    return this.pieces[index] as Uint8Array<ArrayBuffer>;
  }

  /** Hands out everything, in order, and keeps nothing. */
  *take(): Generator<Uint8Array<ArrayBuffer>, void> {
    const { pieces, length } = this;
    this.pieces = [];
    this.length = 0;
    for (const [index, piece] of pieces.entries()) {
      const rest = length - index * pieceBytes;
      yield rest < pieceBytes ? piece.subarray(0, rest) : piece;
    }
  }
}
