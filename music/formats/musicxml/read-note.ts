import type { Pitch } from '../../basis/pitch.ts';
import type { Fingerboard } from '../../score/score.ts';
import { limits } from '../limits.ts';
import { childOf, childText, numberOf, textOf, type XmlElement } from '../xml/tree.ts';
import { readLyric } from './read-lyric.ts';
import {
  attachmentsOf,
  fingerboardOf,
  noNotations,
  readNotations,
  stringOf,
  type RawNotations,
} from './read-notations.ts';
import { pitchFromTexts } from './read-attributes.ts';
import { transposedBy, type RawHead, type RawPart, type TupletRatio } from './raw-part.ts';

/** What one `<note>` says before its place in time is known. */
export interface RawNote {
  isGrace: boolean;
  hasSlash: boolean;
  isCue: boolean;
  isChordMember: boolean;
  isRest: boolean;
  isBarRest: boolean;
  pitch: Pitch | null;
  display: Pitch | null;
  isUnpitched: boolean;
  duration: string | null;
  staff: number;
  voice: string;
  stem: 'up' | 'down' | null;
  notehead: string;
  isBracketed: boolean;
  instrument: string | null;
  hasLyric: boolean;
  notations: RawNotations | null;
  ratio: TupletRatio | null;
  /** Elements that may hold others, or that are not read here. */
  others: XmlElement[] | null;
}

/** A note that says nothing yet. */
export const blankNote = (): RawNote => ({
  isGrace: false,
  hasSlash: false,
  isCue: false,
  isChordMember: false,
  isRest: false,
  isBarRest: false,
  pitch: null,
  display: null,
  isUnpitched: false,
  duration: null,
  staff: 1,
  voice: '1',
  stem: null,
  notehead: '',
  isBracketed: false,
  instrument: null,
  hasLyric: false,
  notations: null,
  ratio: null,
  others: null,
});

function makeBlank(note: RawNote): void {
  note.isGrace = false;
  note.hasSlash = false;
  note.isCue = false;
  note.isChordMember = false;
  note.isRest = false;
  note.isBarRest = false;
  note.pitch = null;
  note.display = null;
  note.isUnpitched = false;
  note.duration = null;
  note.staff = 1;
  note.voice = '1';
  note.stem = null;
  note.notehead = '';
  note.isBracketed = false;
  note.instrument = null;
  note.hasLyric = false;
  note.notations = null;
  note.ratio = null;
  note.others = null;
}

const displayOf = (element: XmlElement): Pitch | null =>
  pitchFromTexts(childText(element, 'display-step'), '', childText(element, 'display-octave'));

const readers: Readonly<Record<string, (element: XmlElement, note: RawNote) => void>> = {
  grace: (element, note) => {
    note.isGrace = true;
    note.hasSlash = element.attributes['slash'] === 'yes';
  },
  cue: (_, note) => {
    note.isCue = true;
  },
  chord: (_, note) => {
    note.isChordMember = true;
  },
  pitch: (element, note) => {
    note.pitch = pitchFromTexts(childText(element, 'step'), childText(element, 'alter'), childText(element, 'octave'));
  },
  unpitched: (element, note) => {
    note.isUnpitched = true;
    note.display = displayOf(element);
  },
  rest: (element, note) => {
    note.isRest = true;
    note.isBarRest = element.attributes['measure'] === 'yes';
  },
  duration: (element, note) => {
    note.duration = textOf(element);
  },
  staff: (element, note) => {
    note.staff = Math.max(1, Math.min(limits.staves, Math.round(Number(textOf(element))) || 1));
  },
  voice: (element, note) => {
    note.voice = textOf(element) || '1';
  },
  stem: (element, note) => {
    const direction = textOf(element);
    note.stem = direction === 'up' || direction === 'down' ? direction : null;
  },
  notehead: (element, note) => {
    note.notehead = textOf(element);
    note.isBracketed = element.attributes['parentheses'] === 'yes';
  },
  instrument: (element, note) => {
    note.instrument = element.attributes['id'] ?? null;
  },
  play: (element, note) => {
    if (childText(element, 'mute') === 'palm') (note.notations ??= noNotations()).techniques.push('palmMute');
  },
  lyric: (element, note) => {
    note.hasLyric = true;
    const lyric = readLyric(element);
    if (lyric !== null) attachmentsOf((note.notations ??= noNotations())).lyrics.push(lyric);
  },
  'time-modification': (element, note) => {
    const actual = numberOf(childOf(element, 'actual-notes'));
    const normal = numberOf(childOf(element, 'normal-notes'));
    if (actual !== null && normal !== null && actual > 0 && normal > 0) note.ratio = { actual, normal };
  },
  tie: (element, note) => {
    const notations = (note.notations ??= noNotations());
    if (element.attributes['type'] === 'start') notations.startsTie = true;
    if (element.attributes['type'] === 'stop') notations.stopsTie = true;
  },
  notations: (element, note) => {
    readNotations(element, (note.notations ??= noNotations()));
  },
};

const parts = new Map(Object.entries(readers));

/** Elements of a note that hold nothing else and are layout. */
const plain = new Set(['type', 'dot', 'beam', 'accidental']);

/** Elements of a note that may hold what is not read. */
const roomy = new Set(['notations', 'lyric', 'play', 'cue']);

/** Reads what a `<note>` element says into a note, in the place of what that said before: one object serves all notes of a part, since each is done with before the next is read. */
export function readNote(element: XmlElement, note: RawNote): void {
  makeBlank(note);
  for (const node of element.children) {
    if (typeof node === 'string' || node.kind !== 'element') continue;
    const reader = parts.get(node.name);
    reader?.(node, note);
    if (roomy.has(node.name) || (reader === undefined && !plain.has(node.name))) (note.others ??= []).push(node);
  }
}

const nothingSaid = noNotations();

/** Whether a head is a slash on the middle line, where rhythms without pitches are written; slashes elsewhere show the pitches of a strum. **Source** common practice, no source. */
function isRhythmSlash({ notehead, pitch }: RawNote, place: Fingerboard | null): boolean {
  if (notehead !== 'slash' || place !== null) return false;
  return pitch === null || (pitch.step === 'B' && (pitch.octave === 3 || pitch.octave === 4));
}

const crossHeads = new Set(['x', 'cross', 'circle-x', 'slashed', 'back slashed']);

/** The head of a note that stands at a known place of a part and comes next among its heads. */
export function headOf(
  element: XmlElement,
  note: RawNote,
  part: RawPart,
  time: Pick<RawHead, 'barIndex' | 'offsetTicks' | 'lengthTicks'>,
): RawHead {
  const notations = note.notations ?? nothingSaid;
  const fingerboard = fingerboardOf(notations);
  return {
    barIndex: time.barIndex,
    offsetTicks: time.offsetTicks,
    lengthTicks: time.lengthTicks,
    element,
    partIndex: part.index,
    index: part.heads.length,
    staff: note.staff,
    voice: note.voice,
    stem: note.stem,
    pitch: note.isUnpitched ? null : note.pitch,
    display: note.display,
    hasCrossHead: crossHeads.has(note.notehead),
    isBracketed: note.isBracketed,
    isRhythmSlash: isRhythmSlash(note, fingerboard),
    isGrace: note.isGrace,
    hasSlash: note.hasSlash,
    isCue: note.isCue,
    isChordMember: note.isChordMember,
    startsTie: notations.startsTie,
    stopsTie: notations.stopsTie,
    fingerboard,
    string: fingerboard === null ? stringOf(notations) : null,
    transposedBy: transposedBy(part, note.staff),
    strings: part.strings,
    techniques: notations.techniques,
    ornaments: notations.ornaments,
    pluckingFinger: notations.pluckingFinger,
    frettingFinger: notations.frettingFinger,
    instrument: note.instrument,
    words: notations.words,
    hasLyric: note.hasLyric,
    attachments: notations.attachments,
  };
}
