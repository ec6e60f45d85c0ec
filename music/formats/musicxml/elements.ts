import type { XmlElement } from '../xml/tree.ts';
import { isMeasuredTremolo, isReadAccidental } from './read-ornaments.ts';

/** What becomes of an element: `read` into the score; `kept` in the document only and told; `ignored`, since it only lays out print or plays back (it is kept in the document too). */
type ElementFate = 'read' | 'kept' | 'ignored';

const names = (text: string): readonly string[] => text.trim().split(/\s+/);

/** Elements that the score has in some form, and those that only hold them. */
const read = names(`
score-partwise score-timewise part-list score-part part measure work work-title movement-title identification creator
miscellaneous miscellaneous-field part-name part-abbreviation score-instrument instrument-name instrument-sound
midi-instrument midi-program
note pitch step alter octave unpitched display-step display-octave rest chord duration tie voice type dot
time-modification actual-notes normal-notes stem notehead staff grace instrument lyric text syllabic elision
extend laughing humming play mute backup forward
notations tied slur tuplet tuplet-actual tuplet-normal tuplet-number glissando slide arpeggiate fermata
technical up-bow down-bow harmonic natural artificial fingering pluck fret string hammer-on pull-off bend bend-alter
pre-bend release tap other-technical
articulations accent strong-accent staccato staccatissimo spiccato tenuto detached-legato scoop plop doit falloff
ornaments wavy-line shake trill-mark turn delayed-turn inverted-turn delayed-inverted-turn mordent
inverted-mordent tremolo
dynamics pppppp ppppp pppp ppp pp p mp mf f ff fff ffff fffff ffffff sf sfp sfpp sfz sfzp sffz fp fz pf rf rfz
attributes divisions key key-step key-alter measure-style measure-repeat fifths mode time beats beat-type senza-misura staves clef sign line clef-octave-change
staff-details staff-tuning tuning-step tuning-alter tuning-octave capo transpose chromatic octave-change double
barline repeat ending segno coda
direction direction-type rehearsal words wedge dashes bracket metronome beat-unit beat-unit-dot per-minute
metronome-note metronome-type metronome-tuplet metronome-relation sound swing straight first second swing-type offset
harmony root root-step root-alter numeral numeral-root function kind bass bass-step bass-alter degree degree-value degree-alter
degree-type
`);

/** Elements that mean something to a musician and that the score has no place for. */
const kept = names(`
cue
key-octave interchangeable time-relation
numeral-alter numeral-key numeral-fifths numeral-mode inversion bass-separator
frame figured-bass figure figure-number prefix suffix
frame-strings frame-frets first-fret frame-note barre
accordion-registration accordion-high accordion-middle accordion-low
percussion glass metal wood pitched membrane effect timpani beater stick stick-type stick-material stick-location
other-percussion
eyeglasses damp damp-all pedal harp-pedals pedal-tuning pedal-step pedal-alter scordatura accord
principal-voice staff-divide symbol other-direction string-mute
vertical-turn inverted-vertical-turn schleifer haydn other-ornament accidental-mark
other-articulation breath-mark caesura stress unstress soft-accent
open-string thumb-position double-tongue triple-tongue stopped snap-pizzicato heel toe fingernails hole hole-type
hole-closed hole-shape arrow arrow-direction arrow-style arrowhead circular-arrow handbell brass-bend flip smear open
half-muted harmon-mute harmon-closed golpe with-bar base-pitch touching-pitch sounding-pitch
non-arpeggiate other-notation other-dynamics n
beat-repeat slash slash-type slash-dot except-voice
instrument-change instrument-abbreviation solo ensemble semi-pitched other-play ipa
for-part part-clef part-transpose tuplet-type tuplet-dot metronome-arrows metronome-tied metronome-beam metronome-dot beat-unit-tied
listen assess wait other-listen listening sync other-listening player player-name
opus
`);

/** Elements that lay out the page, name files and rights, or steer a synthesiser; what they say to a musician is said elsewhere too. */
const ignored = names(`
movement-number work-number rights encoding encoder encoding-date encoding-description software supports source relation
defaults concert-score scaling millimeters tenths page-layout page-height page-width page-margins left-margin right-margin
top-margin bottom-margin system-layout system-margins system-distance top-system-distance system-dividers left-divider
right-divider staff-layout staff-distance measure-layout measure-distance measure-numbering appearance line-width
note-size distance glyph other-appearance music-font word-font lyric-font lyric-language
credit credit-type credit-words credit-symbol credit-image link bookmark
part-group group-name group-name-display group-abbreviation group-abbreviation-display group-symbol group-barline
group-time group-link grouping feature part-link part-name-display part-abbreviation-display display-text
accidental-text part-symbol instruments virtual-instrument virtual-library virtual-name
midi-device midi-channel midi-name midi-bank midi-unpitched volume pan elevation
footnote level beam accidental notehead-text normal-type normal-dot end-line end-paragraph print
staff-type staff-lines line-detail staff-size cancel multiple-rest bar-style
image directive diatonic swing-style instrument-link octave-shift
`);

function fatesOf(): Map<string, ElementFate> {
  const fates = new Map<string, ElementFate>();
  for (const name of ignored) fates.set(name, 'ignored');
  for (const name of kept) fates.set(name, 'kept');
  for (const name of read) fates.set(name, 'read');
  return fates;
}

/** What becomes of each element of MusicXML 4.0, by its name. **Source** MusicXML 4.0, element reference, from memory. */
export const elementFates: ReadonlyMap<string, ElementFate> = fatesOf();

/** What becomes of one element where it stands: tremolos that are no strokes of one note are kept, and an accidental among ornaments is read. */
export function fateOf(element: XmlElement, parent: XmlElement | null): ElementFate | undefined {
  if (element.name === 'tremolo' && !isMeasuredTremolo(element)) return 'kept';
  if (element.name === 'accidental-mark' && parent?.name === 'ornaments' && isReadAccidental(element)) return 'read';
  return elementFates.get(element.name);
}
