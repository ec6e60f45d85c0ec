import { generateKeyBetween } from 'fractional-indexing';
import {
  activeLines,
  lineId,
  separateVoices,
  splitProposer,
  type Line,
  type LineId,
  type NoteId,
  type Score,
} from '../music/index.ts';
import type { Label, Piece } from './piece.ts';
import type { Tool } from './teacher.ts';

/** The bare splitter as a teacher's tool: labels are the numbers of its lines, and lines that it did not find are counted on from them. */
export function splitterTool(piece: Piece, lineCount?: number): Tool {
  const { ticksPerQuarter, meters } = piece;
  let known = 0;
  let present: readonly number[] | undefined;
  return {
    propose: (pins) => {
      const numbers = new Map([...pins].map(([index, label]) => [index, Number(label)]));
      const found = separateVoices(piece.notes, { ticksPerQuarter, meters, lineCount, pins: numbers, present });
      present = found.labels;
      known = Math.max(known, found.lineCount);
      return found.labels.map(String);
    },
    addLine: () => String(known++),
  };
}

function ownLine(id: LineId, lines: readonly Line[], isBelow: (line: Line) => boolean): Line {
  const active = activeLines({ lines });
  const place = active.findIndex(isBelow);
  const below = place === -1 ? undefined : active[place];
  const above = place === -1 ? active.at(-1) : active[place - 1];
  const orderKey = generateKeyBetween(above?.orderKey ?? null, below?.orderKey ?? null);
  return { id, name: `Own ${id}`, role: 'middle', dye: 'logwood', letter: 'O', orderKey, isRetired: false };
}

/**
 * The splitting table as a teacher's tool: what is marked becomes a pin, what is proposed is accepted, and lines are known by their ids.
 * **Shape** one sounding note of the score for each note of the measured piece, in the same order.
 */
export function tableTool(score: Score, lineCount?: number): Tool {
  const proposer = splitProposer(score);
  let lines: readonly Line[] = [];
  let present = new Map<NoteId, readonly LineId[]>();
  let made = 0;
  const idOf = (index: number): NoteId => (score.notes[index] as Score['notes'][number]).id;
  const newLineId = (): LineId => lineId(`line-${++made}`);
  const meanOf = (line: LineId): number => {
    const pitches = score.notes.flatMap(({ id, sound }) =>
      sound.kind === 'pitched' && present.get(id)?.[0] === line ? [sound.soundingMidi] : [],
    );
    return pitches.reduce((sum, midi) => sum + midi, 0) / pitches.length;
  };
  return {
    propose: (marked) => {
      const pins = new Map([...marked].map(([index, label]) => [idOf(index), [lineId(label)]]));
      const now = new Map([...present, ...pins]);
      const proposal = proposer.propose({ lineCount, pins, present: now, lines, newLineId });
      lines = proposal.lines;
      present = new Map([...proposal.marks].map(([note, mark]) => [note, mark.lines]));
      return score.notes.map(({ id }): Label => present.get(id)?.[0] ?? null);
    },
    addLine: (meanMidi) => {
      const line = ownLine(newLineId(), lines, ({ id }) => meanOf(id) < meanMidi);
      lines = [...lines, line];
      return line.id;
    },
  };
}
