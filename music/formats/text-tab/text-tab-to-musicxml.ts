import { pitchOfMidi } from '../../basis/pitch.ts';
import type { Issue, WithIssues } from '../../basis/issue.ts';
import { fileError } from '../file-issue.ts';
import { limits } from '../limits.ts';
import { withBeams } from '../musicxml-writer/beamed-tree.ts';
import { element, type XmlElement } from '../xml/tree.ts';
import { headingOf, type Heading } from './heading.ts';
import { measureElement } from './measure-element.ts';
import { divisions, type TabMeter } from './meter.ts';
import { silentString } from './read-cell.ts';
import { byString } from './string-places.ts';
import { systemsOf, type TabText } from './systems.ts';
import { joinSystems, tabBars } from './tab-bar.ts';
import { TabLog } from './tab-log.ts';
import { textElement } from './text-element.ts';
import { textLinesOf } from './plain-lines.ts';
import { type TextLine } from './text-line.ts';
import { timeBars } from './time-of-bars.ts';
import type { TimedBar } from './timed-bar.ts';
import { findTuning } from './tuning.ts';

/** What is known about a tablature beside its text. */
export interface TextTabOptions {
  /** Highest string first. **Units** MIDI note numbers without capo. */
  readonly tuning?: readonly number[];
}

interface Reading {
  readonly heading: Heading;
  readonly credits: readonly string[];
  readonly tuning: readonly number[];
  readonly bars: readonly TimedBar[];
}

const meterElement = ({ beats, beatUnit }: TabMeter): XmlElement =>
  element('time', {}, [textElement('beats', beats), textElement('beat-type', beatUnit)]);

function tuningElements(tuning: readonly number[], fifths: number): XmlElement[] {
  return tuning.toReversed().map((midi, index) => {
    const { step, alter, octave } = pitchOfMidi(midi, fifths);
    return element('staff-tuning', { line: String(index + 1) }, [
      textElement('tuning-step', step),
      ...(alter === 0 ? [] : [textElement('tuning-alter', alter)]),
      textElement('tuning-octave', octave),
    ]);
  });
}

function attributesElement({ heading, tuning, bars }: Reading): XmlElement {
  const { fifths, mode, capoFret } = heading;
  const meter = bars[0]?.meter ?? { beats: 4, beatUnit: 4 };
  return element('attributes', {}, [
    textElement('divisions', divisions),
    element('key', {}, [textElement('fifths', fifths), ...(mode === null ? [] : [textElement('mode', mode)])]),
    meterElement(meter),
    element('clef', {}, [textElement('sign', 'TAB'), textElement('line', 5)]),
    element('staff-details', {}, [
      textElement('staff-lines', tuning.length),
      ...tuningElements(tuning, fifths),
      textElement('capo', capoFret),
    ]),
  ]);
}

function tempoElements({ quartersPerMinute }: Heading): XmlElement[] {
  if (quartersPerMinute === null) return [];
  const metronome = element('metronome', {}, [
    textElement('beat-unit', 'quarter'),
    textElement('per-minute', quartersPerMinute),
  ]);
  return [
    element('direction', { placement: 'above' }, [
      element('direction-type', {}, [metronome]),
      element('sound', { tempo: String(quartersPerMinute) }),
    ]),
  ];
}

const sameMeter = (a: TabMeter, b: TabMeter | undefined): boolean =>
  b !== undefined && a.beats === b.beats && a.beatUnit === b.beatUnit;

function openingOf(reading: Reading, index: number): XmlElement[] {
  if (index === 0) return [attributesElement(reading), ...tempoElements(reading.heading)];
  const meter = reading.bars[index]?.meter;
  if (meter === undefined || sameMeter(meter, reading.bars[index - 1]?.meter)) return [];
  return [element('attributes', {}, [meterElement(meter)])];
}

function measuresOf(reading: Reading): XmlElement[] {
  const { bars, tuning, heading } = reading;
  const firstNumber = bars[0]?.isPickup === true ? 0 : 1;
  const context = { tuning, capoFret: heading.capoFret, fifths: heading.fifths };
  return bars.map((bar, index) =>
    measureElement({
      bar,
      number: firstNumber + index,
      opening: openingOf(reading, index),
      isLast: index === bars.length - 1,
      context,
    }),
  );
}

/** A bass by its low strings, else a guitar. */
const nameOf = (tuning: readonly number[]): string =>
  tuning.length < 6 && Math.min(...tuning) < 40 ? 'Bass guitar' : 'Guitar';

function documentOf(reading: Reading): XmlElement {
  const { heading, credits } = reading;
  const { title, composer } = heading;
  const work = title === '' ? [] : [element('work', {}, [textElement('work-title', title)])];
  const creator = composer === '' ? [] : [element('creator', { type: 'composer' }, [composer])];
  const identification = creator.length === 0 ? [] : [element('identification', {}, creator)];
  return element('score-partwise', { version: '4.0' }, [
    ...work,
    ...identification,
    ...credits.map((text) => element('credit', { page: '1' }, [textElement('credit-words', text)])),
    element('part-list', {}, [element('score-part', { id: 'P1' }, [textElement('part-name', nameOf(reading.tuning))])]),
    element('part', { id: 'P1' }, measuresOf(reading)),
  ]);
}

/** Words before the music and after it, those that said nothing reported. */
function creditsOf(header: readonly TextLine[], { used, title }: Heading, log: TabLog): string[] {
  return header
    .filter(({ text }) => text.trim() !== '' && text.trim() !== title)
    .map((line) => {
      const text = line.text.trim();
      if (!used.has(line)) log.add('kept-as-words', 'note', `“${text}” was kept as words beside the music.`, line);
      return text;
    });
}

/** The heading; the first line that says nothing else, if it is short, is the title. */
function titledHeading(text: TabText): Heading {
  const touching = text.systems[0]?.above ?? [];
  const heading = headingOf([...text.header, ...touching]);
  if (heading.title !== '') return heading;
  const first = text.header.find((line) => !heading.used.has(line) && /\p{L}/u.test(line.text));
  const isTitle = first !== undefined && first.text.trim().length <= 80 && !/[.:!?]$/.test(first.text.trim());
  if (!isTitle) return heading;
  return { ...heading, title: first.text.trim(), used: new Set([...heading.used, first]) };
}

function readingOf(text: TabText, options: TextTabOptions, log: TabLog): Reading {
  const heading = titledHeading(text);
  const systems = text.systems.map(({ strings }) => strings);
  const words = [...text.header, ...(text.systems[0]?.above ?? [])];
  const tuning = findTuning(systems, words, options.tuning ?? null, log);
  const states = tuning.strings.map(silentString);
  const drawn = text.systems.map((system, index) => {
    const rows = byString(system.strings, tuning.labels, tuning.isUpsideDown, log);
    const above = index === 0 ? system.above.filter((line) => !heading.used.has(line)) : system.above;
    return tabBars({ ...system, above }, rows, states, log);
  });
  const bars = timeBars(joinSystems(drawn), heading.meter, log);
  const said = (text.systems[0]?.above ?? []).filter((line) => heading.used.has(line));
  const credits = creditsOf([...text.header, ...said, ...text.footer], heading, log);
  return { heading, credits, tuning: tuning.strings, bars };
}

const emptyDocument = (): XmlElement => element('score-partwise', { version: '4.0' }, [element('part-list', {}, [])]);

const fretCount = ({ bars }: Reading): number =>
  bars.reduce((sum, { tab }) => sum + tab.moments.reduce((all, { frets }) => all + frets.length, 0), 0);

const longestText = 500_000;

/** A plain text tablature as a partwise tree for the MusicXML reader: one tablature staff with tuning and capo, a string and fret for each note, and what stands around it as words, chord symbols and lyrics. A rhythm that is not written is guessed from the columns. **Errors** in the issues: `no-music`, `file-too-large`, `too-many-notes`. **Source** common practice, no source; MusicXML 4.0 for the tree. */
export function textTabToMusicXml(text: string, options: TextTabOptions = {}): WithIssues<XmlElement> {
  if (text.length > longestText) {
    const detail = `The text is longer than ${longestText.toLocaleString('en')} signs, which no tablature is.`;
    return { value: emptyDocument(), issues: [fileError('file-too-large', detail)] };
  }
  const log = new TabLog();
  const found = systemsOf(textLinesOf(text, log), log);
  if (found.systems.length === 0) {
    const error: Issue = fileError(
      'no-music',
      'The text holds no lines of strings: four to eight lines of dashes and fret numbers under each other.',
    );
    return { value: emptyDocument(), issues: [error, ...log.issues()] };
  }
  const reading = readingOf(found, options, log);
  if (fretCount(reading) > limits.notes) {
    const detail = `The text holds more than ${limits.notes.toLocaleString('en')} fret numbers.`;
    return { value: emptyDocument(), issues: [fileError('too-many-notes', detail)] };
  }
  return { value: withBeams(documentOf(reading)), issues: log.issues() };
}
