import {
  activeLines,
  linesOfNote,
  nameOf,
  reachOf,
  type HitKind,
  type Line,
  type LineId,
  type NoteId,
  type Score,
  type SoundingNote,
  type Split,
  type TickRange,
} from '../../../music/index.ts';

/** One note of a strand, as long as its ribbon lasts. */
export interface StrandNote {
  readonly note: NoteId;
  readonly startTicks: number;
  readonly endTicks: number;
  readonly midi: number;
  readonly name: string;
  /** 0 to 1. */
  readonly strength: number;
}

/** One hit on a strand. */
export interface StrandHit {
  readonly note: NoteId;
  readonly startTicks: number;
  readonly hit: HitKind;
  readonly strength: number;
}

/** A line within an excerpt: the notes that its ribbon follows, those that sound with them, and its hits. */
export interface Strand {
  readonly line: Line;
  /** Ascending, one at a time. */
  readonly notes: readonly StrandNote[];
  /** Further notes of moments with more than one. */
  readonly chordNotes: readonly StrandNote[];
  readonly hits: readonly StrandHit[];
}

/** A line that is sung elsewhere than it is written. */
export interface SungLine {
  readonly line: LineId;
  readonly octaves: number;
}

type StrengthOf = (note: NoteId) => number;

/**
 * The lines of a split within a stretch, in the split's order; every marked note that begins there is on its strands.
 * A ribbon is as long as the line's notes are written out: until the next one, but cut where its voice rests.
 */
export function strandsOf(
  score: Score,
  split: Pick<Split, 'lines' | 'marks'>,
  range: TickRange,
  strengthOf: StrengthOf,
): readonly Strand[] {
  const inside = score.notes.filter((note) => note.onsetTicks >= range.startTicks && note.onsetTicks < range.endTicks);
  const reach = reachOf(score, 'next');
  return activeLines(split).map((line) => {
    const own = inside.filter((note) => linesOfNote(split, note.id).includes(line.id));
    const { leads, chordMates } = leadsOf(own.filter(isPitched), line.role === 'bass');
    const ends = leads.map((lead, index) => {
      const nextTicks = Math.min(leads[index + 1]?.onsetTicks ?? Infinity, range.endTicks);
      return Math.max(lead.onsetTicks + 1, Math.min(nextTicks, reach(lead, nextTicks)));
    });
    const endAt = new Map(leads.map((lead, index) => [lead.onsetTicks, ends[index] ?? lead.onsetTicks]));
    return {
      line,
      notes: leads.map((lead, index) => strandNote(lead, ends[index] as number, strengthOf)),
      chordNotes: chordMates.map((mate) => strandNote(mate, endAt.get(mate.onsetTicks) ?? mate.onsetTicks, strengthOf)),
      hits: own.flatMap((note) => hitOf(note, strengthOf)),
    };
  });
}

type PitchedNote = SoundingNote & { readonly sound: Extract<SoundingNote['sound'], { kind: 'pitched' }> };
const isPitched = (note: SoundingNote): note is PitchedNote => note.sound.kind === 'pitched';

const strandNote = (note: PitchedNote, endTicks: number, strengthOf: StrengthOf): StrandNote => ({
  note: note.id,
  startTicks: note.onsetTicks,
  endTicks,
  midi: note.sound.soundingMidi,
  name: nameOf(note.sound.sounding),
  strength: strengthOf(note.id),
});

const hitOf = (note: SoundingNote, strengthOf: StrengthOf): readonly StrandHit[] =>
  note.sound.kind === 'hit'
    ? [{ note: note.id, startTicks: note.onsetTicks, hit: note.sound.hit, strength: strengthOf(note.id) }]
    : [];

/** Of notes struck together the ribbon follows the highest; for a bass the lowest. */
function leadsOf(
  notes: readonly PitchedNote[],
  followsLowest: boolean,
): { leads: PitchedNote[]; chordMates: PitchedNote[] } {
  const leads: PitchedNote[] = [];
  const chordMates: PitchedNote[] = [];
  for (const note of notes) {
    const lead = leads.at(-1);
    if (lead === undefined || lead.onsetTicks !== note.onsetTicks) {
      leads.push(note);
      continue;
    }
    const higher = note.sound.soundingMidi > lead.sound.soundingMidi;
    if (higher === followsLowest) chordMates.push(note);
    else {
      leads[leads.length - 1] = note;
      chordMates.push(lead);
    }
  }
  return { leads, chordMates };
}

/** The strands with the sung line where it is sung. */
export function sungStrands(strands: readonly Strand[], sung: SungLine | undefined): readonly Strand[] {
  if (sung === undefined || sung.octaves === 0) return strands;
  const moved = (notes: Strand['notes']) => notes.map((note) => ({ ...note, midi: note.midi + 12 * sung.octaves }));
  return strands.map((strand) =>
    strand.line.id === sung.line
      ? { ...strand, notes: moved(strand.notes), chordNotes: moved(strand.chordNotes) }
      : strand,
  );
}
