import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import { readMusicXml, type ReadScore } from './read-score.ts';

function read(bar: string, name = 'Guitar'): ReadScore {
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const clef = '<clef><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef>';
  const attributes = `<time><beats>4</beats><beat-type>4</beat-type></time>${clef}`;
  const result = readMusicXml(new TextEncoder().encode(measuresXml([bar], { name, attributes })), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const note = (step: string, more = '', quarters = 1): string =>
  `<note><pitch><step>${step}</step><octave>4</octave></pitch><duration>${quarters * 24}</duration><voice>1</voice>${more}</note>`;
const signs = (...content: readonly string[]): string => `<notations>${content.join('')}</notations>`;
const technical = (content: string): string => signs(`<technical>${content}</technical>`);
const direction = (...types: readonly string[]): string =>
  `<direction>${types.map((type) => `<direction-type>${type}</direction-type>`).join('')}</direction>`;

describe('signs of one note', () => {
  it.each([
    ['technical: down-bow', technical('<down-bow/>'), 'strumDown'],
    ['technical: up-bow', technical('<up-bow/>'), 'strumUp'],
    ['technical: tap', technical('<tap>T</tap>'), 'tap'],
    ['technical: harmonic', technical('<harmonic><natural/></harmonic>'), 'naturalHarmonic'],
    ['technical: harmonic, artificial', technical('<harmonic><artificial/></harmonic>'), 'artificialHarmonic'],
    ['technical: other-technical', technical('<other-technical>palm mute</other-technical>'), 'palmMute'],
    ['technical: hammer-on', technical('<hammer-on type="stop"/>'), 'hammerOn'],
    ['technical: pull-off', technical('<pull-off type="stop"/>'), 'pullOff'],
    ['notations: slide', signs('<slide type="stop"/>'), 'slide'],
    ['notations: glissando', signs('<glissando type="stop"/>'), 'slide'],
    ['notations: arpeggiate', signs('<arpeggiate/>'), 'arpeggio'],
    ['notations: arpeggiate downwards', signs('<arpeggiate direction="down"/>'), 'arpeggioDown'],
    ['notations: fermata', signs('<fermata/>'), 'fermata'],
    ['articulations: scoop', signs('<articulations><scoop/></articulations>'), 'slideIn'],
    ['articulations: plop', signs('<articulations><plop/></articulations>'), 'slideInFromAbove'],
    ['articulations: doit', signs('<articulations><doit/></articulations>'), 'slideOutUpwards'],
    ['articulations: falloff', signs('<articulations><falloff/></articulations>'), 'slideOut'],
    ['articulations: strong-accent', signs('<articulations><strong-accent/></articulations>'), 'strongAccent'],
    ['ornaments: wavy-line', signs('<ornaments><wavy-line type="start"/></ornaments>'), 'vibrato'],
    ['play: mute', '<play><mute>palm</mute></play>', 'palmMute'],
  ])('MusicXML 4.0, %s', (_, content, technique) => {
    expect(read(note('C', content, 4)).score.notes[0]!.techniques).toEqual([technique]);
  });
});

describe('words over a stretch of notes (common practice, no source)', () => {
  it.each([
    ['let ring', 'letRing'],
    ['P.M.', 'palmMute'],
  ])('“%s” with dashes are for the notes under them (MusicXML 4.0, dashes)', (text, technique) => {
    const start = direction(`<words>${text}</words>`, '<dashes type="start" number="2"/>');
    const stop = direction('<dashes type="stop" number="2"/>');
    const { notes } = read(note('C') + start + note('D') + note('E') + stop + note('F')).score;
    expect(notes.map(({ techniques }) => techniques)).toEqual([[], [technique], [technique], []]);
  });

  it('without dashes are for their moment', () => {
    const { notes } = read(`${direction('<words>let ring</words>')}${note('C', '', 2)}${note('D', '', 2)}`).score;
    expect(notes.map(({ techniques }) => techniques)).toEqual([['letRing'], []]);
  });

  it('that name a barre tell how long it lies (MusicXML 4.0, bracket)', () => {
    const start = direction('<words>CIII</words>', '<bracket type="start" line-end="none"/>');
    const stop = direction('<bracket type="stop" line-end="down"/>');
    const { barres } = read(start + note('C', '', 2) + stop + note('D', '', 2)).score;
    expect(barres).toEqual([{ onsetTicks: 0, endTicks: 48, fret: 3, isPartial: false }]);
  });
});

describe('fingers and places', () => {
  it.each([
    ['<pluck>p</pluck>', 'p'],
    ['<pluck>M</pluck>', 'm'],
    ['<pluck>x</pluck>', 'c'],
    ['<fingering>a</fingering>', 'a'],
  ])('%s is the plucking finger %s (MusicXML 4.0, pluck, fingering)', (content, finger) => {
    expect(read(note('C', technical(content), 4)).score.notes[0]!.pluckingFinger).toBe(finger);
  });

  it('a string without a fret has the fret that gives the pitch (MusicXML 4.0, string)', () => {
    // C4 on the third string, an open G3 in standard tuning: five semitones above it.
    expect(read(note('C', technical('<string>3</string>'), 4)).score.notes[0]!.fingerboard).toEqual({
      string: 3,
      fret: 5,
    });
  });

  it('a string that cannot give the pitch is no place', () => {
    expect(read(note('C', technical('<string>1</string>'), 4)).score.notes[0]!.fingerboard).toBeNull();
  });
});
