/** What an element may hold and say. **Source** MusicXML 4.0, W3C Music Notation Community Group Final Report (2021), musicxml.xsd: the type of the same name; from memory, elements and attributes that Heddle writes only. */
export interface ElementRule {
  /** Children in order as a regular expression over names, `?`, `*`, `+`, `|` as usual; empty for none. */
  readonly content?: string;
  /** What its text must match; elements without this hold no text. */
  readonly text?: RegExp;
  /** Attributes with what their values must match. */
  readonly attributes?: Readonly<Record<string, RegExp>>;
  readonly required?: readonly string[];
}

const any = /^[^]*$/;
const yesNo = /^(yes|no)$/;
/** number-level */
const level = /^([1-9]|1[0-6])$/;
const integer = /^-?\d+$/;
const positive = /^[1-9]\d*$/;
const decimal = /^-?\d+(\.\d+)?$/;
const positiveDecimal = /^(?!0+(\.0+)?$)\d+(\.\d+)?$/;
const id = /^[A-Za-z_][\w.-]*$/;
const nmtoken = /^[\w.:-]+$/;
const step = /^[A-G]$/;
const octave = /^\d$/;
const startStop = /^(start|stop)$/;
const noteType = /^(1024th|512th|256th|128th|64th|32nd|16th|eighth|quarter|half|whole|breve|long|maxima)$/;
const joined = { attributes: { type: startStop, number: level }, required: ['type'] };

/** chord-kind: kind-value */
const kind =
  /^(major|minor|augmented|diminished|dominant|(major|minor|diminished|augmented)-seventh|half-diminished|major-minor|(major|minor)-sixth|dominant-ninth|(major|minor)-ninth|(dominant|major|minor)-(11th|13th)|suspended-(second|fourth)|Neapolitan|Italian|French|German|pedal|power|Tristan|other|none)$/;
const dynamics =
  'p pp ppp pppp ppppp pppppp f ff fff ffff fffff ffffff mp mf sf sfp sfpp fp rf rfz sfz sffz fz n pf sfzp other-dynamics';
const empty: ElementRule = {};
const emptyNames = (names: string): Readonly<Record<string, ElementRule>> =>
  Object.fromEntries(names.split(' ').map((name) => [name, empty]));

/** full-note, editorial-voice and the rest of note. */
const fullNote = 'chord? (pitch|unpitched|rest)';
const noteContent = `((grace ${fullNote} tie? tie?)|(${fullNote} duration tie? tie?)) instrument* voice? type? dot* accidental? time-modification? stem? notehead? notehead-text? staff? beam* notations* lyric* play? listen?`;
const technicals = 'up-bow|down-bow|harmonic|fingering|pluck|string|fret|hammer-on|pull-off|bend|tap|other-technical';

/** The elements that Heddle writes. */
export const elementRules: Readonly<Record<string, ElementRule>> = {
  ...emptyNames(dynamics),
  ...emptyNames('dot chord natural artificial pre-bend release straight staccato accent strong-accent tenuto'),
  ...emptyNames('segno coda fermata arpeggiate up-bow down-bow'),
  'score-partwise': {
    content: 'work? movement-number? movement-title? identification? defaults? credit* part-list part+',
    attributes: { version: /^4\.0$/ },
  },
  'movement-title': { text: any },
  identification: { content: 'creator* rights* encoding? source? relation* miscellaneous?' },
  creator: { text: any, attributes: { type: any } },
  encoding: { content: '(encoding-date|encoder|software|encoding-description|supports)*' },
  software: { text: any },
  'part-list': { content: 'part-group* score-part (part-group|score-part)*' },
  'score-part': {
    content:
      'identification? part-link* part-name part-name-display? part-abbreviation? part-abbreviation-display? group* score-instrument* player* (midi-device? midi-instrument?)*',
    attributes: { id },
    required: ['id'],
  },
  'part-name': { text: any },
  'part-abbreviation': { text: any },
  'score-instrument': { content: 'instrument-name instrument-abbreviation?', attributes: { id }, required: ['id'] },
  'instrument-name': { text: any },
  part: { content: 'measure+', attributes: { id }, required: ['id'] },
  measure: {
    content:
      '(note|backup|forward|direction|attributes|harmony|figured-bass|print|sound|listening|barline|grouping|link|bookmark)*',
    attributes: { number: any, implicit: yesNo, id },
    required: ['number'],
  },
  attributes: {
    content:
      'divisions? key* time* staves? part-symbol? instruments? clef* staff-details* (transpose*|for-part*) directive* measure-style*',
  },
  divisions: { text: positiveDecimal },
  key: { content: 'cancel? fifths mode?' },
  fifths: { text: integer },
  mode: { text: /^(major|minor)$/ },
  time: { content: '(beats beat-type)+ interchangeable?' },
  beats: { text: /^\d+(\+\d+)*$/ },
  'beat-type': { text: positive },
  staves: { text: positive },
  clef: { content: 'sign line? clef-octave-change?', attributes: { number: positive } },
  sign: { text: /^(G|F|C|percussion|TAB|jianpu|none)$/ },
  line: { text: positive },
  'clef-octave-change': { text: integer },
  'staff-details': {
    content: 'staff-type? (staff-lines line-detail*)? staff-tuning* capo? staff-size?',
    attributes: { number: positive },
  },
  'staff-lines': { text: positive },
  'staff-tuning': {
    content: 'tuning-step tuning-alter? tuning-octave',
    attributes: { line: positive },
    required: ['line'],
  },
  'tuning-step': { text: step },
  'tuning-alter': { text: decimal },
  'tuning-octave': { text: octave },
  capo: { text: /^\d+$/ },
  transpose: { content: 'diatonic? chromatic octave-change? double?' },
  diatonic: { text: integer },
  chromatic: { text: decimal },
  'octave-change': { text: integer },
  note: { content: noteContent, attributes: { id } },
  grace: { attributes: { slash: yesNo } },
  pitch: { content: 'step alter? octave' },
  step: { text: step },
  alter: { text: decimal },
  octave: { text: octave },
  unpitched: { content: '(display-step display-octave)?' },
  'display-step': { text: step },
  'display-octave': { text: octave },
  rest: { content: '(display-step display-octave)?', attributes: { measure: yesNo } },
  duration: { text: positiveDecimal },
  tie: { attributes: { type: startStop }, required: ['type'] },
  instrument: { attributes: { id }, required: ['id'] },
  voice: { text: any },
  type: { text: noteType },
  accidental: {
    text: /^(sharp|natural|flat|double-sharp|flat-flat|quarter-flat|quarter-sharp|three-quarters-flat|three-quarters-sharp)$/,
  },
  'time-modification': { content: 'actual-notes normal-notes (normal-type normal-dot*)?' },
  'actual-notes': { text: positive },
  'normal-notes': { text: positive },
  stem: { text: /^(down|up|none|double)$/ },
  notehead: { text: /^(x|normal|slash|diamond)$/ },
  staff: { text: positive },
  beam: { text: /^(begin|continue|end|forward hook|backward hook)$/, attributes: { number: /^[1-8]$/ } },
  notations: {
    content:
      '(tied|slur|tuplet|glissando|slide|ornaments|technical|articulations|dynamics|fermata|arpeggiate|non-arpeggiate|accidental-mark|other-notation)*',
  },
  tied: { attributes: { type: /^(start|stop|continue|let-ring)$/, number: level }, required: ['type'] },
  slur: { attributes: { type: /^(start|stop|continue)$/, number: level }, required: ['type'] },
  slide: joined,
  tuplet: {
    content: 'tuplet-actual? tuplet-normal?',
    attributes: { type: startStop, number: level, bracket: yesNo },
    required: ['type'],
  },
  'tuplet-actual': { content: 'tuplet-number? tuplet-type? tuplet-dot*' },
  'tuplet-normal': { content: 'tuplet-number? tuplet-type? tuplet-dot*' },
  'tuplet-number': { text: /^\d+$/ },
  technical: { content: `(${technicals})*` },
  fingering: { text: any },
  pluck: { text: any },
  string: { text: positive },
  fret: { text: /^\d+$/ },
  'hammer-on': { ...joined, text: any },
  'pull-off': { ...joined, text: any },
  'other-technical': { text: any },
  harmonic: { content: '(natural|artificial)? (base-pitch|touching-pitch|sounding-pitch)?' },
  bend: { content: 'bend-alter (pre-bend|release)? with-bar?' },
  'bend-alter': { text: decimal },
  articulations: { content: '(accent|strong-accent|staccato|tenuto|detached-legato|staccatissimo|spiccato)*' },
  lyric: {
    content: '((syllabic? text ((elision syllabic?)? text)* extend?)|extend|laughing|humming) end-line? end-paragraph?',
    attributes: { number: nmtoken, name: any },
  },
  syllabic: { text: /^(single|begin|end|middle)$/ },
  text: { text: any },
  extend: { attributes: { type: /^(start|stop|continue)$/ } },
  direction: {
    content: 'direction-type+ offset? voice? staff? sound? listening?',
    attributes: { placement: /^(above|below)$/ },
  },
  'direction-type': {
    content: '(rehearsal+|segno+|coda+|(words|symbol)+|wedge|dynamics+|dashes|bracket|pedal|metronome|octave-shift)',
  },
  rehearsal: { text: any },
  words: { text: any },
  wedge: {
    attributes: { type: /^(crescendo|diminuendo|stop|continue)$/, number: level },
    required: ['type'],
  },
  dynamics: { content: `(${dynamics.replaceAll(' ', '|')})*` },
  metronome: { content: 'beat-unit beat-unit-dot* (per-minute|(beat-unit beat-unit-dot*))' },
  'beat-unit': { text: noteType },
  'per-minute': { text: any },
  offset: { text: decimal, attributes: { sound: yesNo } },
  sound: {
    content: '(instrument-change? midi-device? midi-instrument? play?) swing? offset?',
    attributes: {
      tempo: /^\d+(\.\d+)?$/,
      dacapo: yesNo,
      segno: any,
      dalsegno: any,
      coda: any,
      tocoda: any,
      fine: any,
    },
  },
  swing: { content: '(straight|(first second swing-type?)) swing-style?' },
  first: { text: positive },
  second: { text: positive },
  'swing-type': { text: /^(eighth|16th)$/ },
  harmony: { content: '((root|numeral|function) kind inversion? bass? degree*)+ frame? offset? staff?' },
  root: { content: 'root-step root-alter?' },
  'root-step': { text: step, attributes: { text: any } },
  'root-alter': { text: decimal },
  function: { text: any },
  kind: { text: kind, attributes: { text: any } },
  bass: { content: 'bass-separator? bass-step bass-alter?' },
  'bass-step': { text: step },
  'bass-alter': { text: decimal },
  backup: { content: 'duration' },
  forward: { content: 'duration voice? staff?' },
  barline: {
    content: 'bar-style? wavy-line? segno? coda? fermata? fermata? ending? repeat?',
    attributes: { location: /^(right|left|middle)$/ },
  },
  'bar-style': {
    text: /^(regular|dotted|dashed|heavy|light-light|light-heavy|heavy-light|heavy-heavy|tick|short|none)$/,
  },
  ending: {
    text: any,
    attributes: { number: /^( *|[1-9]\d*(, ?[1-9]\d*)*)$/, type: /^(start|stop|discontinue)$/ },
    required: ['number', 'type'],
  },
  repeat: {
    attributes: { direction: /^(backward|forward)$/, times: /^\d+$/ },
    required: ['direction'],
  },
};
