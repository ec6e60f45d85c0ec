import {
  noMarks,
  barId,
  headId,
  noteId,
  partId,
  pitchOfMidi,
  type Bar,
  type MeterChange,
  type Score,
  type SoundingNote,
  type SourceVoice,
} from '../music/index.ts';
import type { Piece, TrueNote } from './piece.ts';

const commonTime: MeterChange = { onsetTicks: 0, beats: 4, beatUnit: 4 };

function barsOf({ ticksPerQuarter, meters, notes }: Piece): readonly Bar[] {
  const endTicks = Math.max(...notes.map(({ onsetTicks, lengthTicks }) => onsetTicks + lengthTicks), 1);
  const bars: Bar[] = [];
  for (let onsetTicks = 0; onsetTicks < endTicks;) {
    const { beats, beatUnit } = meters.findLast((change) => change.onsetTicks <= onsetTicks) ?? commonTime;
    const next = meters.find((change) => change.onsetTicks > onsetTicks)?.onsetTicks ?? Infinity;
    const lengthTicks = Math.min((beats * 4 * ticksPerQuarter) / beatUnit, next - onsetTicks);
    bars.push({
      id: barId(`b${bars.length + 1}`),
      ordinal: bars.length + 1,
      label: String(bars.length + 1),
      onsetTicks,
      lengthTicks,
      meter: { beats: [beats], beatUnit },
      key: { fifths: 0, mode: null },
      isImplicit: false,
      startsRepeat: false,
      repeatTimes: 0,
      endings: [],
      jumps: [],
      rehearsalMark: null,
    });
    onsetTicks += lengthTicks;
  }
  return bars;
}

const voicesOf = ({ sourceVoice, stem }: TrueNote): readonly SourceVoice[] =>
  sourceVoice === undefined && stem === undefined
    ? []
    : [{ part: partId('P1'), staff: 1, voice: sourceVoice ?? '1', stem: stem ?? null }];

function noteOf(note: TrueNote, index: number, bar: Bar): SoundingNote {
  const pitch = pitchOfMidi(note.midi, 0);
  return {
    id: noteId(`n${index + 1}`),
    bar: bar.id,
    onsetTicks: note.onsetTicks,
    lengthTicks: note.lengthTicks,
    sound: { kind: 'pitched', written: pitch, sounding: pitch, soundingMidi: note.midi },
    heads: [headId(`n${index + 1}`)],
    voices: voicesOf(note),
    fingerboard: null,
    techniques: note.letRing === true ? ['letRing'] : [],
    pluckingFinger: note.finger ?? null,
    frettingFinger: null,
  };
}

/** A piece as a score that tells no more than the piece's notes do. **Shape** its notes stand in the order of the piece's. */
export function scoreOfPiece(piece: Piece): Score {
  const bars = barsOf(piece);
  let at = 0;
  const notes = piece.notes.map((note, index) => {
    while (at > 0 && (bars[at] as Bar).onsetTicks > note.onsetTicks) at--;
    while (bars[at + 1] !== undefined && (bars[at + 1] as Bar).onsetTicks <= note.onsetTicks) at++;
    return noteOf(note, index, bars[at] as Bar);
  });
  const { id: title, ticksPerQuarter } = piece;
  const none = { parts: [], graces: [], rests: [], tempos: [], dynamics: [], ...noMarks };
  return { title, composer: '', ticksPerQuarter, bars, notes, ...none };
}
