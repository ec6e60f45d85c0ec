import { describe, expect, it } from 'vitest';
import { serialiseXml } from '../xml/serialise-xml.ts';
import { parseXml } from '../xml/parse-xml.ts';
import { isElement, withChildren, type XmlDocument, type XmlElement, type XmlNode } from '../xml/tree.ts';
import { elementFates } from './elements.ts';
import { readMusicXml, type ReadScore } from './read-score.ts';

const quarter = (inner = '', step = 'C', octave = 4): string =>
  `<note><pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>2</duration>${inner}</note>`;
const notations = (inner: string): string => quarter(`<notations>${inner}</notations>`);
const technical = (inner: string): string => notations(`<technical>${inner}</technical>`);
const articulations = (inner: string): string => notations(`<articulations>${inner}</articulations>`);
const direction = (inner: string): string => `<direction><direction-type>${inner}</direction-type></direction>`;
const dynamics = (name: string): string => direction(`<dynamics><${name}/></dynamics>`);
const attributes = (inner = ''): string => `<attributes><divisions>2</divisions>${inner}</attributes>`;

/** A score whose parts are given bar by bar. */
function scene(bars: readonly string[], entry = '<part-name>Flute</part-name>', header = ''): string {
  const measures = bars.map((bar, index) => `<measure number="${index + 1}">${bar}</measure>`).join('');
  return `<score-partwise version="4.0">${header}<part-list><score-part id="P1">${entry}</score-part></part-list><part id="P1">${measures}</part></score-partwise>`;
}

const tuning = (line: number, step: string, octave: number, alter = ''): string =>
  `<staff-tuning line="${line}"><tuning-step>${step}</tuning-step>${alter}<tuning-octave>${octave}</tuning-octave></staff-tuning>`;
const strings = [
  tuning(1, 'E', 2, '<tuning-alter>-1</tuning-alter>'),
  tuning(2, 'A', 2),
  tuning(3, 'D', 3),
  tuning(4, 'G', 3),
  tuning(5, 'B', 3),
  tuning(6, 'E', 4),
].join('');

const levels = ['pppppp', 'ppppp', 'pppp', 'ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff', 'ffff', 'fffff', 'ffffff'];
const accents = ['sf', 'sfp', 'sfpp', 'sfz', 'sfzp', 'sffz', 'fp', 'fz', 'pf', 'rf', 'rfz'];

/** Small scores that between them use every element that the score has. */
const scenes: readonly string[] = [
  scene(
    [quarter()],
    '<part-name>Solo</part-name><part-abbreviation>Gtr.</part-abbreviation>',
    '<work><work-title>Work</work-title></work><identification><creator type="composer">Somebody</creator><miscellaneous><miscellaneous-field name="heddle-octave">0</miscellaneous-field></miscellaneous></identification>',
  ),
  scene([quarter()], '<part-name>Flute</part-name>', '<movement-title>Title</movement-title>'),
  scene(
    [quarter()],
    '<part-name>One</part-name><score-instrument id="I1"><instrument-name>Guitar</instrument-name></score-instrument>',
  ),
  scene(
    [quarter()],
    '<part-name>One</part-name><score-instrument id="I1"><instrument-name>x</instrument-name><instrument-sound>pluck.guitar</instrument-sound></score-instrument>',
  ),
  scene(
    [quarter()],
    '<part-name>One</part-name><midi-instrument id="I1"><midi-program>25</midi-program></midi-instrument>',
  ),
  `<score-timewise version="4.0"><part-list><score-part id="P1"><part-name>Flute</part-name></score-part></part-list><measure number="1"><part id="P1">${quarter()}</part></measure></score-timewise>`,
  scene([
    `${attributes('<key><fifths>2</fifths><mode>minor</mode></key><time><beats>3</beats><beat-type>4</beat-type></time><clef><sign>F</sign><line>3</line><clef-octave-change>-1</clef-octave-change></clef>')}${quarter()}`,
    `${attributes('<key><key-step>F</key-step><key-alter>1</key-alter></key><time><senza-misura/></time>')}${quarter()}`,
  ]),
  scene([`${attributes('<staves>3</staves>')}${quarter()}`]),
  scene([
    `${attributes('<transpose><chromatic>-2</chromatic><octave-change>-1</octave-change><double/></transpose>')}${quarter()}`,
  ]),
  scene([
    `${attributes('<staves>2</staves>')}<note><pitch><step>C</step><alter>1</alter><octave>4</octave></pitch><duration>2</duration><tie type="start"/><voice>2</voice><stem>up</stem><staff>1</staff></note><note><chord/><pitch><step>E</step><octave>4</octave></pitch><duration>2</duration></note><note><pitch><step>C</step><alter>1</alter><octave>4</octave></pitch><duration>2</duration><tie type="stop"/><voice>2</voice></note><note><rest/><duration>2</duration></note><backup><duration>4</duration></backup><forward><duration>1</duration></forward><note><grace slash="yes"/><pitch><step>D</step><octave>4</octave></pitch></note><note><pitch><step>F</step><octave>4</octave></pitch><duration>1</duration><staff>2</staff></note>`,
  ]),
  scene([
    `<attributes><divisions>12</divisions></attributes><note><pitch><step>C</step><octave>4</octave></pitch><type>quarter</type><dot/><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification></note>`,
  ]),
  scene([
    `${quarter('<lyric number="1"><syllabic>begin</syllabic><text>A</text><elision>-</elision><text>b</text><extend/></lyric>')}${quarter('<lyric><laughing/></lyric>')}${quarter('<lyric><humming/></lyric>')}`,
  ]),
  scene([`${quarter('<notehead>x</notehead>')}${quarter('<play><mute>palm</mute></play>')}`]),
  scene(
    [
      `<note><unpitched><display-step>E</display-step><display-octave>4</display-octave></unpitched><duration>2</duration><instrument id="I1"/></note><note><unpitched><display-step>C</display-step><display-octave>6</display-octave></unpitched><duration>2</duration></note>`,
    ],
    '<part-name>Guitar</part-name><score-instrument id="I1"><instrument-name>Slap</instrument-name></score-instrument>',
  ),
  scene([
    `${notations('<slur type="start"/>')}${notations('<slur type="stop"/>')}${notations('<tied type="let-ring"/>')}${notations('<arpeggiate/>')}${notations('<fermata/>')}`,
  ]),
  scene([
    `${notations('<slide type="start"/>')}${notations('<slide type="stop"/>')}${notations('<glissando type="start"/>')}${notations('<glissando type="stop"/>')}`,
  ]),
  scene([
    `<note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration><notations><tuplet type="start"><tuplet-actual><tuplet-number>5</tuplet-number></tuplet-actual><tuplet-normal><tuplet-number>4</tuplet-number></tuplet-normal></tuplet></notations></note><note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration><notations><tuplet type="stop"/></notations></note>`,
  ]),
  scene([
    ['up-bow', 'down-bow', 'tap'].map((name) => technical(`<${name}/>`)).join('') +
      technical('<harmonic><natural/></harmonic>') +
      technical('<harmonic><artificial/></harmonic>') +
      technical('<fingering>2</fingering>') +
      technical('<pluck>p</pluck>') +
      technical('<string>2</string><fret>1</fret>') +
      technical('<hammer-on type="start"/>') +
      technical('<hammer-on type="stop"/>') +
      technical('<pull-off type="start"/>') +
      technical('<pull-off type="stop"/>') +
      technical('<bend><bend-alter>2</bend-alter><pre-bend/></bend>') +
      technical('<bend><bend-alter>2</bend-alter><release/></bend>') +
      technical('<other-technical>palm mute</other-technical>'),
  ]),
  scene([
    [
      'accent',
      'strong-accent',
      'staccato',
      'staccatissimo',
      'spiccato',
      'tenuto',
      'detached-legato',
      'scoop',
      'plop',
      'doit',
      'falloff',
    ]
      .map((name) => articulations(`<${name}/>`))
      .join('') +
      notations('<ornaments><wavy-line type="start"/></ornaments>') +
      notations('<ornaments><shake/></ornaments>') +
      ['trill-mark', 'turn', 'delayed-turn', 'inverted-turn', 'delayed-inverted-turn', 'mordent', 'inverted-mordent']
        .map((name) => notations(`<ornaments><${name}/></ornaments>`))
        .join('') +
      notations('<ornaments><tremolo>3</tremolo></ornaments>'),
  ]),
  scene([...levels, ...accents].map((name) => dynamics(name) + quarter())),
  scene(
    [
      `${attributes(`<staff-details>${strings}<capo>2</capo></staff-details>`)}${quarter('<notations><technical><string>6</string><fret>2</fret></technical></notations>', 'F', 3)}`,
    ],
    '<part-name>Guitar</part-name>',
  ),
  scene([
    `<barline location="left"><ending number="1" type="start"/><repeat direction="forward"/></barline>${quarter()}`,
    `${quarter()}<barline location="right"><ending number="1" type="stop"/><repeat direction="backward" times="3"/></barline>`,
    `${direction('<segno/>')}${quarter()}${direction('<coda/>')}`,
  ]),
  scene([
    `<attributes><divisions>2</divisions></attributes>${quarter()}`,
    `<attributes><measure-style><measure-repeat type="start">1</measure-repeat></measure-style></attributes>`,
  ]),
  scene([
    `${direction('<rehearsal>A</rehearsal>')}${direction('<wedge type="crescendo"/>')}${quarter()}${direction('<wedge type="stop"/>')}<direction><direction-type><words>let ring</words></direction-type><direction-type><dashes type="start" number="1"/></direction-type></direction>${quarter()}${quarter()}${direction('<dashes type="stop" number="1"/>')}`,
    `<direction><direction-type><words>P.M.</words></direction-type><direction-type><bracket type="start" number="1"/></direction-type></direction>${quarter()}${quarter()}${direction('<bracket type="stop" number="1"/>')}`,
  ]),
  scene([
    `${direction('<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>60</per-minute></metronome>')}${quarter()}`,
  ]),
  scene([
    `${direction('<metronome><metronome-note><metronome-type>eighth</metronome-type></metronome-note><metronome-note><metronome-type>eighth</metronome-type></metronome-note><metronome-relation>equals</metronome-relation><metronome-note><metronome-type>quarter</metronome-type><metronome-tuplet type="start"><actual-notes>3</actual-notes><normal-notes>2</normal-notes></metronome-tuplet></metronome-note><metronome-note><metronome-type>eighth</metronome-type></metronome-note></metronome>')}${quarter()}`,
  ]),
  scene([
    `<sound tempo="80"><swing><first>2</first><second>1</second><swing-type>16th</swing-type></swing></sound>${quarter()}`,
    `<sound><swing><straight/></swing></sound>${quarter()}<direction><direction-type><words>x</words></direction-type><offset>-1</offset></direction>`,
  ]),
  scene([
    `<harmony><root><root-step>C</root-step><root-alter>1</root-alter></root><kind>minor</kind><bass><bass-step>E</bass-step><bass-alter>-1</bass-alter></bass><degree><degree-value>9</degree-value><degree-alter>1</degree-alter><degree-type>add</degree-type></degree></harmony>${quarter()}<harmony><numeral><numeral-root>4</numeral-root></numeral><kind>major</kind></harmony>${quarter()}<harmony><function>V</function><kind>major</kind></harmony>${quarter()}`,
    `<harmony><root><root-step>C</root-step></root><kind>major</kind><degree><degree-value>9</degree-value><degree-alter>0</degree-alter><degree-type>subtract</degree-type></degree></harmony>${quarter()}`,
  ]),
];

function documentOf(xml: string): XmlDocument {
  const parsed = parseXml(xml);
  if (!parsed.ok) throw new Error(parsed.refusal.detail);
  return parsed.value;
}

const without = (parent: XmlElement, name: string): XmlElement =>
  withChildren(
    parent,
    parent.children.flatMap((node): XmlNode[] =>
      isElement(node) ? (node.name === name ? [] : [without(node, name)]) : [node],
    ),
  );

function read(document: XmlDocument): ReadScore | null {
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(serialiseXml(document)), source);
  return result.ok ? result.value : null;
}

const documents = scenes.map((xml) => {
  const document = documentOf(xml);
  return { xml, document, score: JSON.stringify(read(document)?.score) };
});

/** Whether leaving an element out of a scene that has it changes the score; a score without its root is none. */
function matters(name: string): boolean {
  return documents.some(({ xml, document, score }) => {
    if (!new RegExp(`<${name}[\\s/>]`).test(xml)) return false;
    const root = document.root.name === name ? { ...document.root, name: 'nothing' } : without(document.root, name);
    return JSON.stringify(read({ ...document, root })?.score) !== score;
  });
}

/** Read, but they only say what holds without them: a harmonic is a natural one, and two groups of notes are an equation. */
const sayTheUsual = new Set(['natural', 'metronome-relation']);

const namesOf = (fate: string): string[] => [...elementFates].flatMap(([name, own]) => (own === fate ? [name] : []));

// What each element is: MusicXML 4.0, element reference, from memory.
describe('what the table of elements says', () => {
  it('is true of each element that is read: without it the score is another', () => {
    expect(namesOf('read').filter((name) => !matters(name) && !sayTheUsual.has(name))).toEqual([]);
  });

  it('is true of each element that is kept or ignored: the score is the same, the document has it', () => {
    const plain = `${quarter()}${quarter()}`;
    const expected = JSON.stringify(read(documentOf(scene([plain])))?.score);
    const failing = [...namesOf('kept'), ...namesOf('ignored')].filter((name) => {
      const found = read(documentOf(scene([`${quarter(`<${name}/>`)}${quarter()}`])));
      const isSame = JSON.stringify(found?.score) === expected;
      return name !== 'cue' && !(isSame && found?.normalisedXml.includes(`<${name}/>`) === true);
    });
    expect(failing).toEqual([]);
  });
});
