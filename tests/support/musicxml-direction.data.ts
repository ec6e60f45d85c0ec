import { alike, empty, holds, says, type ElementRules } from './musicxml-rule.ts';

const levels =
  'p pp ppp pppp ppppp pppppp f ff fff ffff fffff ffffff mp mf sf sfp sfpp fp rf rfz sfz sffz fz n pf sfzp';
const beatUnit = 'beat-unit beat-unit-dot* beat-unit-tied*';
const metronomeNotes = 'metronome-arrows? metronome-note+ (metronome-relation metronome-note+)?';
const stick = 'tip:tip-direction parentheses:yes-no dashed-circle:yes-no';
const percussionKinds = 'glass metal wood pitched membrane effect timpani beater stick stick-location other-percussion';
const choice = (names: string): string => names.split(' ').join('|');
const place = 'position halign:left-center-right valign:valign';
const lines = 'rehearsal+|segno+|coda+|(words|symbol)+|wedge|dynamics+|dashes|bracket|pedal|metronome|octave-shift';
const rareLines =
  'harp-pedals|damp|damp-all|eyeglasses|string-mute|scordatura|image|principal-voice|percussion+|accordion-registration|staff-divide|other-direction';

/** Directions, chord symbols and what belongs to sound. **Source** MusicXML 4.0, W3C Community Group Final Report (2021), musicxml.xsd: the type of each element; from memory. */
export const directionRules: ElementRules = {
  direction: holds(
    'direction-type+ offset? footnote? level? voice? staff? sound? listening?',
    'placed directive:yes-no system:system-relation unique-id',
  ),
  'direction-type': holds(`(${lines}|${rareLines})`, 'unique-id'),
  ...alike('rehearsal words', says('any', 'text-formatting unique-id')),
  symbol: says('any', 'symbol-formatting unique-id'),
  ...alike('segno coda', empty('print-style-align smufl:any unique-id')),
  wedge: empty(
    'type!:wedge-type number:number-level spread:tenths niente:yes-no line-type:line-type dashed-formatting position colour unique-id',
  ),
  dynamics: holds(
    `(${choice(`${levels} other-dynamics`)})*`,
    'print-style-align placed text-decoration enclosure:enclosure unique-id',
  ),
  ...alike(levels, empty()),
  'other-dynamics': says('any', 'smufl:any'),
  dashes: empty('type!:start-stop-continue number:number-level dashed-formatting position colour unique-id'),
  bracket: empty(
    'type!:start-stop-continue number:number-level line-end!:line-end end-length:tenths line-type:line-type dashed-formatting position colour unique-id',
  ),
  pedal: empty(
    'type!:pedal-type number:number-level line:yes-no sign:yes-no abbreviated:yes-no print-style-align unique-id',
  ),
  metronome: holds(
    `(${beatUnit} (per-minute|(${beatUnit})))|(${metronomeNotes})`,
    'print-style-align shown justify:left-center-right parentheses:yes-no unique-id',
  ),
  ...alike('beat-unit metronome-type', says('note-type-value')),
  ...alike('beat-unit-dot metronome-dot metronome-arrows', empty()),
  'beat-unit-tied': holds('beat-unit beat-unit-dot*'),
  'per-minute': says('any', 'font'),
  'metronome-note': holds('metronome-type metronome-dot* metronome-beam* metronome-tied? metronome-tuplet?'),
  'metronome-relation': says('any'),
  'metronome-beam': says('beam-value', 'number:beam-level'),
  'metronome-tied': empty('type!:start-stop'),
  'metronome-tuplet': holds(
    'actual-notes normal-notes (normal-type normal-dot*)?',
    'type!:start-stop bracket:yes-no show-number:show-tuplet',
  ),
  'octave-shift': empty(
    'type!:up-down-stop-continue number:number-level size:positive-integer dashed-formatting print-style unique-id',
  ),
  'harp-pedals': holds('pedal-tuning+', 'print-style-align unique-id'),
  'pedal-tuning': holds('pedal-step pedal-alter'),
  'pedal-step': says('step'),
  'pedal-alter': says('decimal'),
  ...alike('damp damp-all eyeglasses', empty('print-style-align unique-id')),
  'string-mute': empty('type!:on-off print-style-align unique-id'),
  scordatura: holds('accord+', 'unique-id'),
  accord: holds('tuning-step tuning-alter? tuning-octave', 'string!:positive-integer'),
  image: empty('image-attributes unique-id'),
  'principal-voice': says('any', 'type!:start-stop symbol!:principal-voice-symbol print-style-align unique-id'),
  percussion: holds(choice(percussionKinds), 'print-style-align enclosure:enclosure unique-id'),
  ...alike('glass metal wood pitched membrane effect other-percussion', says('any', 'smufl:any')),
  timpani: empty('smufl:any'),
  beater: says('any', 'tip:tip-direction'),
  stick: holds('stick-type stick-material', stick),
  ...alike('stick-type stick-material stick-location', says('any')),
  'accordion-registration': holds('accordion-high? accordion-middle? accordion-low?', 'print-style-align unique-id'),
  ...alike('accordion-high accordion-low', empty()),
  'accordion-middle': says('accordion-middle'),
  'staff-divide': empty('type!:staff-divide-symbol print-style-align unique-id'),
  'other-direction': says('any', 'shown print-style-align smufl:any unique-id'),
  offset: says('decimal', 'sound:yes-no'),
  sound: holds(
    '(instrument-change? midi-device? midi-instrument? play?)* swing? offset?',
    'tempo:non-negative-decimal dynamics:non-negative-decimal dacapo:yes-no segno:any dalsegno:any coda:any tocoda:any divisions:decimal forward-repeat:yes-no fine:any time-only:time-only pizzicato:yes-no pan:rotation-degrees elevation:rotation-degrees damper-pedal:yes-no-number soft-pedal:yes-no-number sostenuto-pedal:yes-no-number unique-id',
  ),
  'instrument-change': holds('instrument-sound? (solo|ensemble)? virtual-instrument?', 'id!:id'),
  swing: holds('(straight|(first second swing-type?)) swing-style?'),
  straight: empty(),
  ...alike('first second', says('positive-integer')),
  'swing-type': says('swing-type-value'),
  'swing-style': says('any'),
  listening: holds('(sync|other-listening)+ offset?'),
  sync: empty('type!:any latency:non-negative-integer player:id time-only:time-only'),
  'other-listening': says('any', 'type!:any player:id time-only:time-only'),
  harmony: holds(
    '((root|numeral|function) kind inversion? bass? degree*)+ frame? offset? footnote? level? staff?',
    'type:harmony-type shown print-frame:yes-no arrangement:harmony-arrangement print-style placed system:system-relation unique-id',
  ),
  root: holds('root-step root-alter?'),
  'root-step': says('step', 'text:any print-style'),
  ...alike('root-alter bass-alter numeral-alter', says('decimal', 'shown print-style location:left-right')),
  numeral: holds('numeral-root numeral-alter? numeral-key?'),
  'numeral-root': says('numeral-value', 'text:any print-style'),
  'numeral-key': holds('numeral-fifths numeral-mode', 'shown'),
  'numeral-fifths': says('integer'),
  'numeral-mode': says('numeral-mode'),
  function: says('any', 'print-style'),
  kind: says(
    'kind-value',
    'use-symbol:yes-no text:any stack-degrees:yes-no parentheses-degrees:yes-no bracket-degrees:yes-no print-style halign:left-center-right valign:valign',
  ),
  inversion: says('non-negative-integer', 'text:any print-style'),
  bass: holds('bass-separator? bass-step bass-alter?', 'arrangement:harmony-arrangement'),
  'bass-separator': says('any', 'print-style'),
  'bass-step': says('step', 'text:any print-style'),
  degree: holds('degree-value degree-alter degree-type', 'shown'),
  'degree-value': says('positive-integer', 'symbol:degree-symbol-value text:any print-style'),
  'degree-alter': says('decimal', 'print-style plus-minus:yes-no'),
  'degree-type': says('degree-type-value', 'text:any print-style'),
  frame: holds(
    'frame-strings frame-frets first-fret? frame-note+',
    `${place} colour height:tenths width:tenths unplayed:any unique-id`,
  ),
  ...alike('frame-strings frame-frets', says('positive-integer')),
  'first-fret': says('positive-integer', 'text:any location:left-right'),
  'frame-note': holds('string fret fingering? barre?'),
  barre: empty('type!:start-stop colour'),
  'figured-bass': holds(
    'figure+ duration? footnote? level?',
    'print-style-align placed printout parentheses:yes-no unique-id',
  ),
  figure: holds('prefix? figure-number? suffix? extend? footnote? level?'),
  ...alike('prefix figure-number suffix', says('any', 'print-style smufl:any')),
};
