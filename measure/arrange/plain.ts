import type { Piece, TrueNote } from '../piece.ts';
import type { Arrangement } from './arrange.ts';

/** How much of what the file tells beside onset, length and pitch a piece keeps. */
export type Kept = 'nothing' | 'fingerboard';

/** The pitched notes of an arrangement as a piece; a note that two lines share stands there twice. */
export function pieceOf({ id, score, truth }: Arrangement, kept: Kept): Piece {
  const notes = score.notes.flatMap((note, index): readonly TrueNote[] => {
    const { onsetTicks, lengthTicks, sound, fingerboard, techniques } = note;
    if (sound.kind !== 'pitched') return [];
    const plain = { onsetTicks, lengthTicks, midi: sound.soundingMidi };
    const told = kept === 'nothing' ? {} : { string: fingerboard?.string, letRing: techniques.includes('letRing') };
    return (truth[index] ?? []).map((voice) => ({ ...plain, ...told, voice }));
  });
  const meters = score.bars.flatMap(({ onsetTicks, meter }) => [
    { onsetTicks, beats: meter.beats.reduce((sum, beats) => sum + beats, 0), beatUnit: meter.beatUnit },
  ]);
  const changes = meters.filter(
    (each, index) => each.beats !== meters[index - 1]?.beats || each.beatUnit !== meters[index - 1]?.beatUnit,
  );
  return { id, ticksPerQuarter: score.ticksPerQuarter, meters: changes, notes };
}
