import { noteId, type HeadId } from '../../basis/ids.ts';
import { midiOf } from '../../basis/pitch.ts';
import type { Bar, Fingerboard, NoteSound, Part, SoundingNote, Technique } from '../../score/score.ts';
import { movedOrnament, type Ornament } from '../../score/ornaments.ts';
import { inReadingOrder } from '../../score/reading-order.ts';
import { firstHead, isHit, type Chain } from './chains.ts';
import { harmonicLift } from './harmonics.ts';
import { hitOf, WordsByMoment } from './hits.ts';
import type { IssueLog } from './issue-log.ts';
import { byOnset } from './pairing.ts';
import type { PartLayout } from './part-layout.ts';
import type { RawHead, RawStrings } from './raw-part.ts';
import { transposedPitch } from './transposed-pitch.ts';

/** Tells the id of a head. */
export type IdOfHead = (head: RawHead) => HeadId;

/** The part as it is set up where strings were retuned or the capo was moved. */
export function partAt(strings: RawStrings | null, { part, movesWithCapo }: PartLayout): Part {
  if (strings === null) return part;
  const { tuning, capoFret, capoBy } = strings;
  return {
    ...part,
    tuning: tuning ?? part.tuning,
    capoFret: capoFret ?? part.capoFret,
    soundingShift: part.soundingShift + (movesWithCapo ? capoBy : 0),
  };
}

/** A head's pitch as it sounds in a part, `liftSemitones` above where the part puts it, or null for a hit. */
export function pitchedSound(
  head: RawHead,
  { soundingShift }: Pick<Part, 'soundingShift'>,
  bar: Bar | undefined,
  liftSemitones = 0,
): NoteSound | null {
  if (head.pitch === null || isHit(head)) return null;
  const sounding = transposedPitch(head.pitch, soundingShift + head.transposedBy + liftSemitones, bar?.key.fifths ?? 0);
  return { kind: 'pitched', written: head.pitch, sounding, soundingMidi: midiOf(sounding) };
}

const noTechniques: readonly Technique[] = [];
const noOrnaments: readonly Ornament[] = [];

function techniquesOf(heads: readonly RawHead[]): readonly Technique[] {
  if (heads.every((head) => head.techniques.length === 0)) return noTechniques;
  return [...new Set(heads.flatMap((head) => head.techniques))];
}

/** The ornaments of a note's heads, each kind once, with their accidentals told at the sounding pitch. */
function ornamentsOf(heads: readonly RawHead[], sound: NoteSound): readonly Ornament[] {
  if (heads.every((head) => head.ornaments.length === 0)) return noOrnaments;
  const byKind = new Map<Ornament['kind'], Ornament>();
  for (const ornament of heads.flatMap((head) => head.ornaments))
    if (!byKind.has(ornament.kind)) byKind.set(ornament.kind, ornament);
  const ornaments = [...byKind.values()];
  return sound.kind === 'hit'
    ? ornaments
    : ornaments.map((ornament) => movedOrnament(ornament, sound.written, sound.sounding));
}

/** A wavy line after a trill tells how long the trill is, and is no vibrato. */
const withoutTrillLine = (techniques: readonly Technique[], ornaments: readonly Ornament[]): readonly Technique[] =>
  ornaments.some(({ kind }) => kind === 'trill')
    ? techniques.filter((technique) => technique !== 'vibrato')
    : techniques;

const firstValue = <Value>(heads: readonly RawHead[], pick: (head: RawHead) => Value | null): Value | null => {
  for (const head of heads) {
    const value = pick(head);
    if (value !== null) return value;
  }
  return null;
};

const highestFret = 30;

/** The fret that gives a pitch on a string that is told without one; null where none does. */
function placeOnString(string: number | null, sound: NoteSound, { tuning, capoFret }: Part): Fingerboard | null {
  const open = string === null ? undefined : tuning?.[string - 1];
  if (string === null || open === undefined || sound.kind === 'hit') return null;
  const fret = sound.soundingMidi - open - capoFret;
  return Number.isInteger(fret) && fret >= 0 && fret <= highestFret ? { string, fret } : null;
}

/** The lengths that the voices of a unison write, where they differ. */
function voiceLengthsOf({ onsetTicks, endTicks, voiceLengthTicks }: Chain): Pick<SoundingNote, 'voiceLengthTicks'> {
  const isOne = voiceLengthTicks?.every((ticks) => ticks === endTicks - onsetTicks) ?? true;
  return isOne || voiceLengthTicks === undefined ? {} : { voiceLengthTicks };
}

/** What a table of notes is made with. */
export interface NoteTableSetting {
  readonly bars: readonly Bar[];
  readonly idOf: IdOfHead;
  /** Whether frets in brackets are proposals, which are not the file's. */
  readonly bracketsPropose: boolean;
  readonly log: IssueLog;
}

interface Table extends NoteTableSetting {
  readonly words: WordsByMoment;
}

/** Where a head is played; one in brackets that are said to propose tells nothing. */
const fingerboardOf =
  ({ bracketsPropose }: Table) =>
  (head: RawHead): Fingerboard | null =>
    bracketsPropose && head.isBracketed ? null : head.fingerboard;

function hitSound(chain: Chain, company: readonly Chain[], copies: readonly Chain[], { words, log }: Table): NoteSound {
  const { hit, isCertain } = hitOf(chain, company, words, copies);
  const { barIndex, offsetTicks } = firstHead(chain);
  if (!isCertain) {
    const detail = firstHead(chain).isRhythmSlash
      ? 'A slash tells a rhythm and no pitch; it was read as a muted strum.'
      : 'An x stands within a strum; it was read as a dead note of the strum.';
    log.add('hit-uncertain', 'note', detail, { partName: chain.part.name, barIndex, offsetTicks });
  }
  return { kind: 'hit', hit, isCertain };
}

const noCopies: readonly Chain[] = [];
const noHeads: readonly RawHead[] = [];

function noteOf(
  chain: Chain,
  companyOf: (chain: Chain) => readonly Chain[],
  layout: PartLayout,
  table: Table,
): SoundingNote | null {
  const bar = table.bars[chain.barIndex];
  if (bar === undefined) return null;
  const copies = layout.copies.get(chain) ?? noCopies;
  const copyHeads = copies.length === 0 ? noHeads : copies.flatMap((copy) => copy.heads);
  const heads = copies.length === 0 ? chain.heads : [...chain.heads, ...copyHeads];
  const ids = heads.map(table.idOf);
  const first = firstHead(chain);
  const placeOf = fingerboardOf(table);
  const told = firstValue(copyHeads, placeOf) ?? firstValue(chain.heads, placeOf);
  const techniques = techniquesOf(heads);
  const part = partAt(
    firstValue(heads, ({ strings }) => strings),
    layout,
  );
  const lift = harmonicLift(first, told, techniques, part);
  const sound = pitchedSound(first, part, bar, lift) ?? hitSound(chain, companyOf(chain), copies, table);
  const ornaments = ornamentsOf(heads, sound);
  return {
    id: noteId(ids[0] ?? ''),
    bar: bar.id,
    onsetTicks: chain.onsetTicks,
    lengthTicks: chain.endTicks - chain.onsetTicks,
    sound,
    heads: ids,
    voices: chain.voices,
    ...voiceLengthsOf(chain),
    fingerboard:
      told ??
      placeOnString(
        firstValue(heads, (head) => head.string),
        sound,
        part,
      ),
    techniques: withoutTrillLine(techniques, ornaments),
    ...(ornaments.length === 0 ? {} : { ornaments }),
    pluckingFinger: firstValue(heads, (head) => head.pluckingFinger),
    frettingFinger: firstValue(heads, (head) => head.frettingFinger),
  };
}

/** The sounding notes of all parts in reading order. */
export function noteTableOf(layouts: readonly PartLayout[], setting: NoteTableSetting): SoundingNote[] {
  const table: Table = { words: new WordsByMoment(layouts.map(({ raw }) => raw)), ...setting };
  const notes: SoundingNote[] = [];
  for (const layout of layouts) {
    let struck: ReadonlyMap<number, readonly Chain[]> | null = null;
    const companyOf = ({ onsetTicks }: Chain): readonly Chain[] =>
      (struck ??= byOnset(layout.chains)).get(onsetTicks) ?? [];
    for (const chain of layout.chains) {
      const note = noteOf(chain, companyOf, layout, table);
      if (note !== null) notes.push(note);
    }
  }
  return inReadingOrder(notes);
}
