import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Piece, PieceLine } from './form/piece.ts';
import { readPiece } from './form/read-piece.ts';
import { engravePiece } from './engrave/engrave-piece.ts';

/** One piece of the demo: the music as our own form says it, and the MusicXML that is uploaded. */
export interface DemoPiece {
  readonly title: string;
  readonly composer: string;
  readonly fileName: string;
  readonly piece: Piece;
  readonly lines: readonly PieceLine[];
  readonly musicXml: string;
}

const pieceNames = ['the-weir-at-low-water', 'two-candles'];

/** The text of a piece, which lies beside the source and not beside what is compiled from it. */
function textOf(name: string): string {
  const folders = [join(import.meta.dirname, 'pieces'), join(import.meta.dirname, '../../seed/pieces')];
  const folder = folders.find((candidate) => existsSync(join(candidate, `${name}.txt`)));
  if (folder === undefined) throw new Error(`The piece ${name} is missing from ${folders.join(' and ')}`);
  return readFileSync(join(folder, `${name}.txt`), 'utf8');
}

function demoPiece(name: string): DemoPiece {
  const reading = readPiece(textOf(name));
  if (!reading.ok) {
    const list = reading.refusal.map(
      (problem) => `${name}.txt:${problem.lineNumber}:${problem.column} ${problem.detail}`,
    );
    throw new Error(list.join('\n'));
  }
  const piece = reading.value;
  const { title, composer, lines } = piece;
  return { title, composer, lines, piece, fileName: `${name}.musicxml`, musicXml: engravePiece(piece) };
}

/** The demo's pieces in course order. */
export const demoPieces = (): readonly DemoPiece[] => pieceNames.map(demoPiece);
