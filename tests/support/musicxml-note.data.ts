import { alike, empty, holds, says, type ElementRules } from './musicxml-rule.ts';

const fullNote = 'chord? (pitch|unpitched|rest)';
const struck = `${fullNote} duration`;
const graced = `grace ((${fullNote} tie? tie?)|(cue ${fullNote}))`;
const beams = Array.from({ length: 8 }, () => 'beam?').join(' ');
const afterSound =
  'instrument* footnote? level? voice? type? dot* accidental? time-modification? stem? notehead? notehead-text? staff?';

const hammer = says('any', 'type!:start-stop number:number-level print-style placed');
const glide = says(
  'any',
  'type!:start-stop number:number-level line-type:line-type dashed-formatting print-style unique-id',
);
const technicals =
  'up-bow down-bow harmonic open-string thumb-position fingering pluck double-tongue triple-tongue stopped snap-pizzicato fret string hammer-on pull-off bend tap heel toe fingernails hole arrow handbell brass-bend flip smear open half-muted harmon-mute golpe other-technical';
const articulations =
  'accent strong-accent staccato tenuto detached-legato staccatissimo spiccato scoop plop doit falloff breath-mark caesura stress unstress soft-accent other-articulation';
const ornaments =
  'trill-mark turn delayed-turn inverted-turn delayed-inverted-turn vertical-turn inverted-vertical-turn shake wavy-line mordent inverted-mordent schleifer tremolo haydn other-ornament';
const choice = (names: string): string => names.split(' ').join('|');
const turn = empty('empty-placement trill-sound slash:yes-no');
const otherPlaced = says('any', 'empty-placement smufl:any');
const portion = holds('tuplet-number? tuplet-type? tuplet-dot*');

/** Notes and all that is printed at them. **Source** MusicXML 4.0, W3C Community Group Final Report (2021), musicxml.xsd: the type of each element; from memory. */
export const noteRules: ElementRules = {
  note: holds(
    `((${graced})|(cue ${struck})|(${struck} tie? tie?)) ${afterSound} ${beams} notations* lyric* play? listen?`,
    'position font colour printout print-leger:yes-no dynamics:non-negative-decimal end-dynamics:non-negative-decimal attack:decimal release:decimal time-only:time-only pizzicato:yes-no unique-id',
  ),
  grace: empty('steal-time-previous:percent steal-time-following:percent make-time:decimal slash:yes-no'),
  ...alike('chord cue', empty()),
  pitch: holds('step alter? octave'),
  ...alike('step display-step', says('step')),
  alter: says('decimal'),
  ...alike('octave display-octave', says('octave')),
  unpitched: holds('(display-step display-octave)?'),
  rest: holds('(display-step display-octave)?', 'measure:yes-no'),
  duration: says('positive-divisions'),
  tie: empty('type!:start-stop time-only:time-only'),
  instrument: empty('id!:id'),
  footnote: says('any', 'text-formatting'),
  level: says('any', 'reference:yes-no type:start-stop-single level-display'),
  voice: says('any'),
  type: says('note-type-value', 'size:symbol-size'),
  dot: empty('empty-placement'),
  accidental: says('accidental-value', 'cautionary:yes-no editorial:yes-no level-display print-style smufl:any'),
  'time-modification': holds('actual-notes normal-notes (normal-type normal-dot*)?'),
  ...alike('actual-notes normal-notes tuplet-number', says('non-negative-integer')),
  'tuplet-number': says('non-negative-integer', 'font colour'),
  ...alike('normal-type', says('note-type-value')),
  'normal-dot': empty(),
  stem: says('stem-value', 'position colour'),
  notehead: says('notehead-value', 'filled:yes-no parentheses:yes-no font colour smufl:any'),
  'notehead-text': holds('(display-text|accidental-text)+'),
  staff: says('positive-integer'),
  beam: says('beam-value', 'number:beam-level repeater:yes-no fan:fan colour unique-id'),
  backup: holds('duration footnote? level?'),
  forward: holds('duration footnote? level? voice? staff?'),
  notations: holds(
    'footnote? level? (tied|slur|tuplet|glissando|slide|ornaments|technical|articulations|dynamics|fermata|arpeggiate|non-arpeggiate|accidental-mark|other-notation)*',
    'shown unique-id',
  ),
  tied: empty(
    'type!:tied-type number:number-level line-type:line-type dashed-formatting position placed oriented bezier colour unique-id',
  ),
  slur: empty(
    'type!:start-stop-continue number:number-level line-type:line-type dashed-formatting position placed oriented bezier colour unique-id',
  ),
  tuplet: holds(
    'tuplet-actual? tuplet-normal?',
    'type!:start-stop number:number-level bracket:yes-no show-number:show-tuplet show-type:show-tuplet line-shape:line-shape position placed unique-id',
  ),
  ...alike('tuplet-actual tuplet-normal', portion),
  'tuplet-type': says('note-type-value', 'font colour'),
  'tuplet-dot': empty('font colour'),
  glissando: glide,
  slide: { ...glide, attributes: `${glide.attributes} bend-sound` },
  ornaments: holds(`((${choice(ornaments)}) accidental-mark*)*`, 'unique-id'),
  'trill-mark': empty('empty-placement trill-sound'),
  ...alike('turn delayed-turn inverted-turn delayed-inverted-turn', turn),
  ...alike('vertical-turn inverted-vertical-turn shake haydn', empty('empty-placement trill-sound')),
  'wavy-line': empty('type!:start-stop-continue number:number-level smufl:any position placed colour trill-sound'),
  ...alike(
    'mordent inverted-mordent',
    empty('empty-placement trill-sound long:yes-no approach:above-below departure:above-below'),
  ),
  schleifer: empty('empty-placement'),
  tremolo: says('tremolo-marks', 'type:tremolo-type empty-placement smufl:any'),
  ...alike('other-ornament other-technical other-articulation', otherPlaced),
  'accidental-mark': says('accidental-value', 'level-display print-style placed smufl:any unique-id'),
  technical: holds(`(${choice(technicals)})*`, 'unique-id'),
  ...alike('up-bow down-bow open-string thumb-position snap-pizzicato golpe', empty('empty-placement')),
  ...alike('stopped open half-muted', empty('empty-placement smufl:any')),
  ...alike('double-tongue triple-tongue fingernails flip smear brass-bend', empty('empty-placement')),
  harmonic: holds('(natural|artificial)? (base-pitch|touching-pitch|sounding-pitch)?', 'shown empty-placement'),
  ...alike('natural artificial base-pitch touching-pitch sounding-pitch', empty()),
  fingering: says('any', 'substitution:yes-no alternate:yes-no empty-placement'),
  pluck: says('any', 'empty-placement'),
  fret: says('non-negative-integer', 'font colour'),
  string: says('positive-integer', 'empty-placement'),
  ...alike('hammer-on pull-off', hammer),
  bend: holds('bend-alter (pre-bend|release)? with-bar?', 'shape:bend-shape print-style bend-sound'),
  'bend-alter': says('decimal'),
  'pre-bend': empty(),
  release: empty('offset:decimal'),
  'with-bar': says('any', 'empty-placement'),
  tap: says('any', 'hand:tap-hand empty-placement'),
  ...alike('heel toe', empty('substitution:yes-no empty-placement')),
  hole: holds('hole-type? hole-closed hole-shape?', 'empty-placement'),
  ...alike('hole-type hole-shape', says('any')),
  'hole-closed': says('hole-closed-value', 'location:harmon-closed-location'),
  arrow: holds('((arrow-direction arrow-style? arrowhead?)|circular-arrow)', 'empty-placement smufl:any'),
  ...alike('arrow-direction arrow-style circular-arrow', says('any')),
  arrowhead: empty(),
  handbell: says('any', 'empty-placement'),
  'harmon-mute': holds('harmon-closed', 'empty-placement'),
  'harmon-closed': says('hole-closed-value', 'location:harmon-closed-location'),
  articulations: holds(`(${choice(articulations)})*`, 'unique-id'),
  ...alike(
    'accent staccato tenuto detached-legato staccatissimo spiccato stress unstress soft-accent',
    empty('empty-placement'),
  ),
  'strong-accent': empty('type:up-down empty-placement'),
  ...alike('scoop plop doit falloff', empty('empty-line')),
  'breath-mark': says('breath-mark-value', 'empty-placement'),
  caesura: says('caesura-value', 'empty-placement'),
  fermata: says('fermata-shape', 'type:upright-inverted print-style unique-id'),
  arpeggiate: empty('number:number-level direction:up-down unbroken:yes-no position placed colour unique-id'),
  'non-arpeggiate': empty('type!:top-bottom number:number-level position placed colour unique-id'),
  'other-notation': says(
    'any',
    'type!:start-stop-single number:number-level shown print-style placed smufl:any unique-id',
  ),
  lyric: holds(
    '((syllabic? text ((elision syllabic?)? text)* extend?)|extend|laughing|humming) end-line? end-paragraph? footnote? level?',
    'number:nmtoken name:any justify:left-center-right position placed colour shown time-only:time-only unique-id',
  ),
  syllabic: says('syllabic'),
  text: says('any', 'font colour text-decoration letter-spacing:number-or-normal xml:lang:language dir:text-direction'),
  elision: says('any', 'font colour smufl:any'),
  extend: empty('type:start-stop-continue position colour'),
  ...alike('laughing humming end-line end-paragraph', empty()),
  listen: holds('(assess|wait|other-listen)+'),
  assess: empty('type!:yes-no player:id time-only:time-only'),
  wait: empty('player:id time-only:time-only'),
  'other-listen': says('any', 'type!:any player:id time-only:time-only'),
  play: holds('(ipa|mute|semi-pitched|other-play)*', 'id:id'),
  ipa: says('any'),
  mute: says('mute'),
  'semi-pitched': says('semi-pitched'),
  'other-play': says('any', 'type!:any'),
};
