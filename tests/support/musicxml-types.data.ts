/** What a value of each simple type may look like, once blanks are treated as the type says. **Source** MusicXML 4.0, W3C Community Group Final Report (2021), musicxml.xsd: the simple type of the same name; from memory. */

const oneOf = (words: string): RegExp => new RegExp(`^(?:${words.split(/\s+/).join('|')})$`);

const decimal = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)`;
const unsigned = String.raw`\+?(?:\d+(?:\.\d*)?|\.\d+)`;
const aboveZero = String.raw`(?![+0.]*$)${unsigned}`;
const positive = String.raw`\+?0*[1-9]\d*`;

/** Numbers may have blanks around them, words may not. **Source** XML Schema, whiteSpace: collapse of numbers, preserve of xs:string. */
const number = (pattern: string): RegExp => new RegExp(String.raw`^\s*(?:${pattern})\s*$`);

const noteTypes = '1024th 512th 256th 128th 64th 32nd 16th eighth quarter half whole breve long maxima';
const accidentals =
  'sharp natural flat double-sharp sharp-sharp flat-flat natural-sharp natural-flat quarter-flat quarter-sharp three-quarters-flat three-quarters-sharp sharp-down sharp-up natural-down natural-up flat-down flat-up double-sharp-down double-sharp-up flat-flat-down flat-flat-up arrow-down arrow-up triple-sharp triple-flat slash-quarter-sharp slash-sharp slash-flat double-slash-flat sharp-1 sharp-2 sharp-3 sharp-5 flat-1 flat-2 flat-3 flat-4 sori koron other';
const noteheads =
  'slash|triangle|diamond|square|cross|x|circle-x|inverted triangle|arrow down|arrow up|circled|slashed|back slashed|normal|cluster|circle dot|left triangle|rectangle|none|do|re|mi|fa|fa up|so|la|ti|other';
const kinds =
  'major minor augmented diminished dominant major-seventh minor-seventh diminished-seventh augmented-seventh half-diminished major-minor major-sixth minor-sixth dominant-ninth major-ninth minor-ninth dominant-11th major-11th minor-11th dominant-13th major-13th minor-13th suspended-second suspended-fourth Neapolitan Italian French German pedal power Tristan other none';

/** The simple types by name. */
export const simpleTypes = {
  any: /^[^]*$/,
  'not-empty': /^[^]+$/,
  id: /^\s*[\p{L}_][\p{L}\p{M}\p{N}_.\-·]*\s*$/u,
  nmtoken: /^\s*[\p{L}\p{M}\p{N}_.\-·:]+\s*$/u,
  language: /^\s*[a-zA-Z]{1,8}(-[a-zA-Z0-9]{1,8})*\s*$/,
  date: number(String.raw`\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])`),
  space: oneOf('default preserve'),
  'yes-no': oneOf('yes no'),
  'yes-no-number': new RegExp(`^(?:yes|no|\\s*${decimal}\\s*)$`),
  decimal: number(decimal),
  integer: number(String.raw`[+-]?\d+`),
  'non-negative-integer': number(String.raw`\+?\d+|-0+`),
  'positive-integer': number(positive),
  'positive-integer-or-empty': new RegExp(`^(?:|${positive})$`),
  'non-negative-decimal': number(unsigned),
  'positive-decimal': number(aboveZero),
  'positive-divisions': number(aboveZero),
  tenths: number(decimal),
  percent: number(String.raw`\+?(?:\d{1,2}(?:\.\d*)?|\.\d+|100(?:\.0*)?)`),
  'rotation-degrees': number(String.raw`[+-]?(?:1[0-7]\d|\d{1,2}|180)(?:\.\d*)?`),
  'trill-beats': number(String.raw`\+?(?:[2-9]|[1-9]\d+)(?:\.\d*)?`),
  'number-or-normal': new RegExp(`^(?:normal|\\s*${decimal}\\s*)$`),
  'font-size': new RegExp(`^(?:\\s*${decimal}\\s*|(?:xx?-)?small|medium|(?:xx?-)?large)$`),
  color: /^#[\dA-F]{6}(?:[\dA-F]{2})?$/,
  'number-level': number('0*(?:[1-9]|1[0-6])'),
  'beam-level': number('0*[1-8]'),
  'number-of-lines': number('0*[0-3]'),
  'tremolo-marks': number('0*[0-8]'),
  'accordion-middle': number('0*[1-3]'),
  'midi-16': number('0*(?:[1-9]|1[0-6])'),
  'midi-128': number(String.raw`0*(?:[1-9]\d?|1[01]\d|12[0-8])`),
  'midi-16384': number(String.raw`0*(?:[1-9]\d{0,3}|1[0-5]\d{3}|16[0-2]\d{2}|163[0-7]\d|1638[0-4])`),
  octave: number('0*[0-9]'),
  step: oneOf('A B C D E F G'),
  'ending-number': /^(?: *|[1-9]\d*(?:, ?[1-9]\d*)*)$/,
  'time-only': /^\s*[1-9]\d*(?:, ?[1-9]\d*)*\s*$/,
  'above-below': oneOf('above below'),
  'up-down': oneOf('up down'),
  'over-under': oneOf('over under'),
  'top-bottom': oneOf('top bottom'),
  'left-right': oneOf('left right'),
  'left-center-right': oneOf('left center right'),
  'right-left-middle': oneOf('right left middle'),
  valign: oneOf('top middle bottom baseline'),
  'valign-image': oneOf('top middle bottom'),
  'start-stop': oneOf('start stop'),
  'start-stop-continue': oneOf('start stop continue'),
  'start-stop-single': oneOf('start stop single'),
  'start-stop-discontinue': oneOf('start stop discontinue'),
  'tied-type': oneOf('start stop continue let-ring'),
  'wedge-type': oneOf('crescendo diminuendo stop continue'),
  'pedal-type': oneOf('start stop sostenuto change continue discontinue resume'),
  'up-down-stop-continue': oneOf('up down stop continue'),
  'upright-inverted': oneOf('upright inverted'),
  'font-style': oneOf('normal italic'),
  'font-weight': oneOf('normal bold'),
  'text-direction': oneOf('ltr rtl lro rlo'),
  enclosure: oneOf(
    'rectangle square oval circle bracket inverted-bracket triangle diamond pentagon hexagon heptagon octagon nonagon decagon none',
  ),
  'line-shape': oneOf('straight curved'),
  'line-type': oneOf('solid dashed dotted wavy'),
  'line-length': oneOf('short medium long'),
  'line-end': oneOf('up down both arrow none'),
  'start-note': oneOf('upper main below'),
  'trill-step': oneOf('whole half unison'),
  'two-note-turn': oneOf('whole half none'),
  'symbol-size': oneOf('full cue grace-cue large'),
  'note-size-type': oneOf('cue grace grace-cue large'),
  'note-type-value': oneOf(noteTypes),
  'accidental-value': oneOf(accidentals),
  'notehead-value': new RegExp(`^(?:${noteheads})$`),
  'stem-value': oneOf('down up double none'),
  'beam-value': /^(?:begin|continue|end|forward hook|backward hook)$/,
  fan: oneOf('accel rit none'),
  syllabic: oneOf('single begin end middle'),
  'clef-sign': oneOf('G F C percussion TAB jianpu none'),
  'cancel-location': oneOf('left right before-barline'),
  'time-symbol': oneOf('common cut single-number note dotted-note normal'),
  'time-separator': oneOf('none horizontal diagonal vertical adjacent'),
  'time-relation': oneOf('parentheses bracket equals slash space hyphen'),
  'staff-type': oneOf('ossia editorial cue regular alternate'),
  'show-frets': oneOf('numbers letters'),
  'group-symbol-value': oneOf('none brace line bracket square'),
  'group-barline-value': oneOf('yes no Mensurstrich'),
  'measure-numbering-value': oneOf('none measure system'),
  'system-relation': oneOf('only-top also-top none'),
  'system-relation-number': oneOf('only-top only-bottom also-top also-bottom none'),
  'margin-type': oneOf('odd even both'),
  'bar-style': oneOf('regular dotted dashed heavy light-light light-heavy heavy-light heavy-heavy tick short none'),
  'backward-forward': oneOf('backward forward'),
  winged: oneOf('none straight curved double-straight double-curved'),
  'show-tuplet': oneOf('actual both none'),
  'fermata-shape': /^(?:|normal|angled|square|double-angled|double-square|double-dot|half-curve|curlew)$/,
  'breath-mark-value': /^(?:|comma|tick|upbow|salzedo)$/,
  'caesura-value': /^(?:|normal|thick|short|curved|single)$/,
  'tremolo-type': oneOf('start stop single unmeasured'),
  'hole-closed-value': oneOf('yes no half'),
  'tap-hand': oneOf('left right'),
  'bend-shape': oneOf('angled curved'),
  'harmon-closed-location': oneOf('right bottom left top'),
  'kind-value': oneOf(kinds),
  'harmony-type': oneOf('explicit implied alternate'),
  'harmony-arrangement': oneOf('vertical horizontal diagonal'),
  'degree-type-value': oneOf('add alter subtract'),
  'degree-symbol-value': oneOf('major minor augmented diminished half-diminished'),
  'numeral-value': number('0*[1-7]'),
  'numeral-mode': /^(?:major|minor|natural minor|melodic minor|harmonic minor)$/,
  'principal-voice-symbol': oneOf('Hauptstimme Nebenstimme plain none'),
  'staff-divide-symbol': oneOf('down up up-down'),
  mute: oneOf(
    'on off straight cup harmon-no-stem harmon-stem bucket plunger hat solotone practice stop-mute stop-hand echo palm',
  ),
  'semi-pitched': oneOf('high medium-high medium medium-low low very-low'),
  'on-off': oneOf('on off'),
  'swing-type-value': oneOf('16th eighth'),
  'tip-direction': oneOf('up down left right northwest northeast southeast southwest'),
} as const satisfies Readonly<Record<string, RegExp>>;

/** The name of a simple type. */
export type SimpleType = keyof typeof simpleTypes;
